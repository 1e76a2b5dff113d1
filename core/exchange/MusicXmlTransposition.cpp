#include "core/exchange/MusicXmlTransposition.h"

#include "core/exchange/MusicXmlNote.h"

#include <algorithm>
#include <array>
#include <cstdlib>

namespace earwright {

namespace {

/// Letters of an interval upwards: a minor second has one, a tritone is an augmented fourth.
int usualLetters(int semitones) {
    static constexpr std::array<int, 12> letters{0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6};
    const int octaves = std::abs(semitones) / 12;
    const int up = 7 * octaves + letters[static_cast<std::size_t>(std::abs(semitones) % 12)];
    return semitones < 0 ? -up : up;
}

} // namespace

std::optional<PitchName> Transposition::sounding(const PitchName& read) const {
    // High enough that nothing is negative.
    const int step = static_cast<int>(read.step) + letters + 70;
    const PitchName natural{static_cast<Step>(step % 7), 0};
    const int distance = natural.pitchClass() + 12 * (step / 7 - 10) - PitchName{read.step, 0}.pitchClass();
    const int alter = read.alter + semitones - distance;
    if (std::abs(alter) > 2) return std::nullopt;
    return PitchName{natural.step, alter};
}

KeySignature Transposition::sounding(const KeySignature& read) const {
    if (isOctaves()) return read;
    // A fifth up, seven semitones and four letters, is one more; an octave, twelve and seven, none.
    int fifths = read.fifths + 7 * semitones - 12 * letters;
    while (fifths > 6)
        fifths -= 12;
    while (fifths < -6)
        fifths += 12;
    return {fifths, read.mode};
}

Transposition Transposition::under(const KeySignature& read) const {
    if (isOctaves()) return *this;
    const int fifths = read.fifths + 7 * semitones - 12 * letters;
    // Twelve fifths less, for the same key of the piano, are a letter more.
    return {letters + (fifths - sounding(read).fifths) / 12, semitones};
}

std::optional<Reading> Transposition::reading() const {
    for (const Reading reading : {Reading::Tenor, Reading::Baritone})
        if (semitones + semitonesUp(reading) == 0) return reading;
    for (const Reading reading : {Reading::Concert, Reading::BFlat, Reading::EFlat})
        if ((semitones + semitonesUp(reading)) % 12 == 0) return reading;
    return std::nullopt;
}

Transposition transpositionOf(Reading reading) {
    switch (reading) {
    case Reading::Concert:
        break;
    case Reading::BFlat:
        return {-1, -2};
    case Reading::EFlat:
        return {-5, -9};
    case Reading::Tenor:
        return {-8, -14};
    case Reading::Baritone:
        return {-12, -21};
    case Reading::GuitarOctave:
        return {-7, -12};
    }
    return {0, 0};
}

void addTransposition(pugi::xml_node attributes, Reading reading) {
    const Transposition by = transpositionOf(reading);
    if (by.semitones == 0) return;
    pugi::xml_node transpose = attributes.append_child("transpose");
    addText(transpose, "diatonic", std::to_string(by.letters % 7));
    addText(transpose, "chromatic", std::to_string(by.semitones % 12));
    if (by.semitones / 12 != 0) addText(transpose, "octave-change", std::to_string(by.semitones / 12));
}

Transposition transpositionIn(pugi::xml_node transpose) {
    constexpr int furthest = 48;
    const int octaves = std::clamp(transpose.child("octave-change").text().as_int(), -4, 4);
    const int chromatic = std::clamp(transpose.child("chromatic").text().as_int(), -furthest, furthest);
    const int usual = usualLetters(chromatic);
    // Numbers that fit no interval are a slip.
    const int said = transpose.child("diatonic").text().as_int(usual);
    const int letters = std::abs(said - usual) <= 1 ? said : usual;
    return {letters + 7 * octaves, chromatic + 12 * octaves};
}

} // namespace earwright
