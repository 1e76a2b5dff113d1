// The strings of a fretted instrument.
#pragma once

#include <string>
#include <vector>

namespace earwright {

/// Strings in the order of tablature: the first is drawn on top and is usually the highest.
struct StringTuning {
    /// MIDI numbers of the open strings, 1 to 8 of them, without the capo.
    std::vector<int> strings{64, 59, 55, 50, 45, 40};
    /// How many frets the neck has, counted from the nut; 1 to 36.
    int frets = 22;
    /// The fret the capo lies on; 0 for none. Fret numbers are counted from it (common practice).
    int capo = 0;

    friend bool operator==(const StringTuning&, const StringTuning&) = default;
    int openPitch(int string) const { return strings[static_cast<std::size_t>(string)] + capo; }
    /// The highest fret number that can be written.
    int highestFret() const { return frets - capo; }
};

/// Whether there are 1 to 8 strings with MIDI numbers from 0 to 127, 1 to 36 frets, and a capo below the last
/// of them.
bool isPlayable(const StringTuning& tuning);

/// Tunings by name, the plain guitar first (common practice).
struct NamedTuning {
    std::string name;
    StringTuning tuning;
};
const std::vector<NamedTuning>& namedTunings();

} // namespace earwright
