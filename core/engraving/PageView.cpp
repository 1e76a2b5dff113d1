#include "core/engraving/PageView.h"

#include "core/music/PitchNames.h"
#include "core/theory/ChordDegree.h"

#include <algorithm>
#include <cstdlib>
#include <vector>

namespace earwright {

namespace {

struct Shift {
    int letters;
    int semitones;
};

Shift shiftOf(Reading reading) {
    switch (reading) {
    case Reading::Concert:
        break;
    case Reading::BFlat:
        return {1, 2};
    case Reading::EFlat:
        return {5, 9};
    case Reading::Tenor:
        return {8, 14};
    case Reading::Baritone:
        return {12, 21};
    case Reading::GuitarOctave:
        return {7, 12};
    }
    return {0, 0};
}

/// Letters above C0 of B4 and D3.
constexpr int trebleMiddle = 34;
constexpr int bassMiddle = 22;
constexpr int octave = 7;

int middleOf(Clef clef) {
    switch (clef) {
    case Clef::Bass:
        return bassMiddle;
    case Clef::TrebleOctaveLower:
        return trebleMiddle - octave;
    case Clef::Treble:
        break;
    }
    return trebleMiddle;
}

PitchName shifted(const PitchName& name, const Shift& by) {
    const int letters = static_cast<int>(name.step) + by.letters;
    const PitchName natural{static_cast<Step>(letters % 7), 0};
    const int semitones = natural.pitchClass() + letters / 7 * 12 - PitchName{name.step, 0}.pitchClass();
    return {natural.step, name.alter + by.semitones - semitones};
}

bool isTransposed(Reading reading) {
    return semitonesUp(reading) % 12 != 0;
}

/// The most sharps a transposed key may have; beyond it is called by its other name, with flats.
constexpr int mostSharps = 6;
constexpr int fifthsOfTheOtherName = 12;

int fifthsAs(Reading reading, const KeySignature& key) {
    if (!isTransposed(reading)) return key.fifths;
    // A tone up is two fifths, a major sixth three.
    const bool isBFlat = reading == Reading::BFlat || reading == Reading::Tenor;
    const int fifths = key.fifths + (isBFlat ? 2 : 3);
    return fifths > mostSharps ? fifths - fifthsOfTheOtherName : fifths;
}

/// A key called by its other name lies a letter higher: D flat for C sharp.
Shift shiftUnder(const KeySignature& key, Reading reading) {
    Shift by = shiftOf(reading);
    if (isTransposed(reading) && fifthsAs(reading, key) < key.fifths) ++by.letters;
    return by;
}

/// A double accidental, or one on a white key.
bool isOdd(const PitchName& name) {
    return std::abs(name.alter) > 1 || isWhiteWithAccidental(name);
}

bool hasDoubles(const Chord& chord) {
    const std::vector<int> tones = chord.intervals();
    return std::any_of(tones.begin(), tones.end(), [&](int tone) {
        return std::abs(degreeOf(chord.root.pitchClass() + tone, chord).name.alter) > 1;
    });
}

Chord shifted(const Chord& chord, const Shift& by) {
    Chord read = chord;
    read.root = shifted(chord.root, by);
    if (!chord.bass) return read;
    read.bass = shifted(*chord.bass, by);
    if (isOdd(*read.bass) && !isOdd(*chord.bass)) read.bass = plainName(read.bass->pitchClass());
    return read;
}

/// D sharp 7 has F double sharp, E flat 7 has G.
bool isHarder(const Chord& read, const Chord& sounding) {
    return (isOdd(read.root) && !isOdd(sounding.root)) || (hasDoubles(read) && !hasDoubles(sounding));
}

} // namespace

int writtenOctave(const PitchName& name, int midi) {
    return (midi - name.alter - PitchName{name.step, 0}.pitchClass()) / 12 - 1;
}

int semitonesUp(Reading reading) {
    return shiftOf(reading).semitones;
}

ReadPitch readAs(Reading reading, int midi, const PitchName& name, const KeySignature& key) {
    const Shift by = shiftUnder(key, reading);
    PitchName read = shifted(name, by);
    if (std::abs(read.alter) > 2)
        read = plainName(midi + by.semitones);
    else if (std::abs(name.alter) < 2)
        read = withoutDoubles(read);
    return {read, writtenOctave(read, midi + by.semitones)};
}

ChordSymbol readAs(Reading reading, const ChordSymbol& symbol, const KeySignature& key) {
    if (!symbol.chord || !isTransposed(reading)) return symbol;
    const Shift by = shiftUnder(key, reading);
    ChordSymbol read = symbol;
    read.chord = shifted(*symbol.chord, by);
    if (!isHarder(*read.chord, *symbol.chord)) return read;
    const int otherLetter = by.letters + (read.chord->root.alter > 0 ? 1 : -1);
    const Chord other = shifted(*symbol.chord, {otherLetter, by.semitones});
    if (!isHarder(other, *symbol.chord)) read.chord = other;
    return read;
}

KeySignature readAs(Reading reading, const KeySignature& key) {
    return {fifthsAs(reading, key), key.mode};
}

int staffPosition(const ReadPitch& pitch, Clef clef) {
    return pitch.letters() - middleOf(clef);
}

} // namespace earwright
