#include "core/engraving/PageView.h"

#include "core/engraving/WrittenName.h"

#include <cstdlib>

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

} // namespace

ReadPitch readAs(Reading reading, int midi, const PitchName& name) {
    const Shift by = shiftOf(reading);
    PitchName read = shifted(name, by);
    if (std::abs(read.alter) > 2) read = plainName(midi + by.semitones);
    return {read, writtenOctave(read, midi + by.semitones)};
}

ChordSymbol readAs(Reading reading, const ChordSymbol& symbol) {
    if (!symbol.chord || reading == Reading::Concert || reading == Reading::GuitarOctave) return symbol;
    const Shift by = shiftOf(reading);
    ChordSymbol read = symbol;
    read.chord->root = shifted(symbol.chord->root, by);
    if (std::abs(read.chord->root.alter) > 1) read.chord->root = plainName(read.chord->root.pitchClass());
    if (!symbol.chord->bass) return read;
    read.chord->bass = shifted(*symbol.chord->bass, by);
    if (std::abs(read.chord->bass->alter) > 1) read.chord->bass = plainName(read.chord->bass->pitchClass());
    return read;
}

KeySignature readAs(Reading reading, const KeySignature& key) {
    // A tone up is two fifths, a major sixth three.
    KeySignature read = key;
    if (reading == Reading::BFlat) read.fifths += 2;
    if (reading == Reading::EFlat) read.fifths += 3;
    if (read.fifths > 6 && reading != Reading::Concert && reading != Reading::GuitarOctave) read.fifths -= 12;
    return read;
}

int staffPosition(const ReadPitch& pitch, Clef clef) {
    return pitch.letters() - middleOf(clef);
}

} // namespace earwright
