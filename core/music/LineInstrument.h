// What the line is played on, as far as it says which pitches the line can have and how its tones are made.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace earwright {

/// Solo instruments that have a name here, and those that have none, by how their tones are made.
enum class Instrument {
    Guitar,
    Bass,
    Trumpet,
    Trombone,
    Soprano,
    Alto,
    Tenor,
    Baritone,
    Clarinet,
    Flute,
    Violin,
    Piano,
    AnyPlucked,
    AnyWind,
    AnyBowed,
    Voice
};

/// MIDI numbers as they sound; both ends belong to it.
struct PitchRange {
    int lowestMidi = 28;
    int highestMidi = 96;
    friend bool operator==(const PitchRange&, const PitchRange&) = default;
};

/// Lowest below highest, both MIDI numbers (0 to 127).
bool isRange(const PitchRange& range);

/// An instrument by its name, or the lowest and highest note of one that has none here.
using LineInstrument = std::variant<Instrument, PitchRange>;

struct NamedInstrument {
    Instrument instrument;
    /// "tenor": the word in files and on the command line.
    const char* word;
    /// As it sounds, with the notes a soloist adds above the written range (common practice); all that is
    /// heard as a line where the name stands for many.
    PitchRange range;
};

/// Every instrument once.
const std::vector<NamedInstrument>& namedInstruments();

/// The instrument's word.
const char* wordFor(Instrument instrument);

PitchRange rangeOf(const LineInstrument& instrument);

/// "tenor", or two notes "E2-E6", "B♭3–F5": C4 is MIDI 60. Nothing where the text is neither.
std::optional<LineInstrument> lineInstrumentFrom(std::string_view text);

/// "B♭3", "Bb3", "f#4": a MIDI number; nothing where the text names no note from 0 to 127.
std::optional<int> midiNamed(std::string_view text);

} // namespace earwright
