// A pitch as a musician names it: a key of the piano and, where it matters, how it is spelled.
#pragma once

#include <compare>
#include <optional>
#include <string>

namespace earwright {

/// The seven letters, counted from C as octaves are.
enum class Step { C, D, E, F, G, A, B };

/// A letter with its accidental, without an octave: E flat is {Step::E, -1}.
struct PitchName {
    Step step = Step::C;
    /// Semitones the accidental adds: −2 (double flat) to +2 (double sharp).
    int alter = 0;

    friend bool operator==(const PitchName&, const PitchName&) = default;
    /// 0 (C) to 11 (B).
    int pitchClass() const;
};

/// "B♭", "F♯", "C": with the signs of print.
std::string toString(const PitchName& name);

/// A pitch: MIDI number (60 is middle C, 69 is A4) plus the spelling the user chose, if any.
struct Pitch {
    int midi = 60;
    std::optional<PitchName> spelling;

    friend bool operator==(const Pitch&, const Pitch&) = default;
};

/// The pitches a line can have here, E1 to C7: low E of a bass to the top of an alto saxophone's altissimo.
inline constexpr int lowestMidi = 28;
inline constexpr int highestMidi = 96;

/// 0 (C) to 11 (B), for any MIDI number, negative ones too.
int pitchClassOf(int midi);

/// Equal temperament at A4 = 440 Hz (ISO 16), of a MIDI number with its fraction.
double hertzOf(double midi);

/// How a pitch is named when no chord or key says otherwise: the flats of jazz practice
/// (D♭, E♭, A♭, B♭) and F♯ (common practice).
PitchName plainName(int midi);

/// Name and octave, "B♭3"; octaves change at C, and C4 is MIDI 60 (ISO 16 octave numbers as
/// in scientific pitch notation). Uses the pitch's own spelling if it has one.
std::string toString(const Pitch& pitch);
/// The same for a name chosen by the caller: C flat just under C4 is "C♭4". Requires: name fits midi.
std::string toString(const PitchName& name, int midi);

} // namespace earwright
