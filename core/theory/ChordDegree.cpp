#include "core/theory/ChordDegree.h"

#include "core/music/PitchNames.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// A degree of the scale above the root, from 1 to 13, and the sign written before it.
struct Degree {
    int number;
    const char* sign;
};

bool alters(const Chord& chord, int degree, int alter) {
    return std::find(chord.alterations.begin(), chord.alterations.end(), Alteration{degree, alter}) !=
           chord.alterations.end();
}

bool adds(const Chord& chord, int degree) {
    return std::find(chord.added.begin(), chord.added.end(), degree) != chord.added.end();
}

bool hasFlatFifth(const Chord& chord) {
    return chord.quality == ChordQuality::HalfDiminished || chord.quality == ChordQuality::Diminished ||
           alters(chord, 5, -1);
}

bool hasSharpFifth(const Chord& chord) {
    return chord.quality == ChordQuality::Augmented || alters(chord, 5, 1);
}

Degree ninth(const Chord& chord) {
    const bool second = chord.quality == ChordQuality::Suspended2 || adds(chord, 2);
    return {second ? 2 : 9, ""};
}

Degree eleventh(const Chord& chord) {
    const bool fourth = chord.quality == ChordQuality::Suspended4 || adds(chord, 4);
    return {fourth ? 4 : 11, ""};
}

Degree flatThirteenth(const Chord& chord) {
    if (hasSharpFifth(chord)) return {5, "♯"};
    return {alters(chord, 6, -1) ? 6 : 13, "♭"};
}

Degree thirteenth(const Chord& chord) {
    if (chord.quality == ChordQuality::Diminished) return {7, "°"};
    return {chord.extension == 6 || adds(chord, 6) ? 6 : 13, ""};
}

/// The degree that lies so many semitones above the root, 0 to 11.
Degree degreeAt(int semitones, const Chord& chord) {
    switch (semitones) {
    case 0:
        return {1, ""};
    case 1:
        return {9, "♭"};
    case 2:
        return ninth(chord);
    case 3:
        return alters(chord, 9, 1) ? Degree{9, "♯"} : Degree{3, "♭"};
    case 4:
        return {3, ""};
    case 5:
        return eleventh(chord);
    case 6:
        return hasFlatFifth(chord) ? Degree{5, "♭"} : Degree{11, "♯"};
    case 7:
        return {5, ""};
    case 8:
        return flatThirteenth(chord);
    case 9:
        return thirteenth(chord);
    case 10:
        return {7, "♭"};
    default:
        return {7, ""};
    }
}

/// The pitch on the letter that the degree has above the root; by its plain name where that would take more
/// than a double accidental.
PitchName spelled(int midi, const PitchName& root, int degree) {
    return nameOn(static_cast<int>(root.step) + degree - 1, midi).value_or(plainName(midi));
}

bool isTone(int semitones, const Chord& chord) {
    const std::vector<int> tones = chord.intervals();
    return std::any_of(tones.begin(), tones.end(), [&](int tone) { return tone % 12 == semitones; });
}

} // namespace

ChordDegree degreeOf(int midi, const Chord& chord) {
    const int semitones = pitchClassOf(midi - chord.root.pitchClass());
    const Degree degree = degreeAt(semitones, chord);
    const bool isBass = chord.bass && chord.bass->pitchClass() == pitchClassOf(midi);
    return {degree.sign + std::to_string(degree.number), spelled(midi, chord.root, degree.number),
            isBass || isTone(semitones, chord)};
}

PitchName nameHeardOn(int midi, const Chord& chord) {
    const ChordDegree degree = degreeOf(midi, chord);
    return degree.isChordTone ? withoutDoubles(degree.name) : plainName(midi);
}

} // namespace earwright
