// A chord symbol as typed over a bar, and what it means where it can be read.
#pragma once

#include "core/music/Pitch.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace earwright {

/// The chord's third, fifth and seventh in one word.
enum class ChordQuality {
    Major,          ///< C, and with an extension Cmaj7
    Minor,          ///< Cm
    Dominant,       ///< C7, C9, C13
    MinorMajor,     ///< Cm(maj7)
    HalfDiminished, ///< Cm7♭5, Cø
    Diminished,     ///< C°, C°7
    Augmented,      ///< C+
    Suspended2,     ///< Csus2
    Suspended4,     ///< Csus4, C7sus
    Power,          ///< C5
};

/// A change to one degree of the chord: {9, -1} is ♭9, {5, +1} is ♯5.
struct Alteration {
    int degree = 9;
    int alter = -1;
    friend bool operator==(const Alteration&, const Alteration&) = default;
};

/// What a chord symbol says.
struct Chord {
    PitchName root;
    ChordQuality quality = ChordQuality::Major;
    /// Highest stacked third: 5 for a triad, 6, 7, 9, 11 or 13; 69 is written as extension 6 plus added 9.
    int extension = 5;
    std::vector<Alteration> alterations;
    /// Added degrees, for example 9 in C(add9).
    std::vector<int> added;
    std::optional<PitchName> bass;

    friend bool operator==(const Chord&, const Chord&) = default;

    /// Semitones above the root of every chord tone, rising, as the symbol spells it (common practice):
    /// C7♭9 gives 0 4 7 10 13.
    std::vector<int> intervals() const;
};

/// The text as typed and, where it can be read, its meaning.
struct ChordSymbol {
    std::string text;
    std::optional<Chord> chord;

    friend bool operator==(const ChordSymbol&, const ChordSymbol&) = default;
};

/// Whether it is what "alt" stands for, both altered fifths and both altered ninths over a seventh.
bool isAltered(const Chord& chord);

/// Reads one symbol. Never fails: what cannot be read is kept as typed, without a chord.
/// Takes b and # or ♭ and ♯, m/min/-, maj/M/Δ, dim/°, ø, aug/+, sus, add, alt, and a bass after a slash.
ChordSymbol parseChordSymbol(std::string_view text);

/// The symbol as print has it: "B♭7", "Fm7♭5", "C7/E"; the typed text where it could not be read.
std::string toString(const ChordSymbol& symbol);

} // namespace earwright
