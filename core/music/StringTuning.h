// The strings of a fretted instrument.
#pragma once

#include <optional>
#include <string>
#include <string_view>
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

inline constexpr int mostStrings = 8;
inline constexpr int mostFrets = 36;

/// Whether there are 1 to 8 strings with MIDI numbers from 0 to 127, 1 to 36 frets, and a capo below the last
/// of them.
bool isPlayable(const StringTuning& tuning);

/// "E2 A2 D3 G3 B3 E4": open strings as players say them, from the lowest line of tablature up. Without
/// octaves
/// ("DADGAD", "E A D G") each string is the next of its name above the one before, the first about where a
/// guitar's lowest is. None where a word is no note or there are not one to eight.
std::optional<std::vector<int>> readStrings(std::string_view text);
/// The same the other way round, with octaves.
std::string writtenStrings(const std::vector<int>& strings);

/// Tunings by name, the plain guitar first (common practice).
struct NamedTuning {
    std::string name;
    StringTuning tuning;
    /// Guitars are played with a capo (common practice).
    bool isGuitar = false;
};
const std::vector<NamedTuning>& namedTunings();

} // namespace earwright
