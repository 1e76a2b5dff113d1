#include "core/music/LineInstrument.h"

#include "core/music/PitchNames.h"

#include <charconv>

namespace earwright {

namespace {

constexpr int highestMidiNumber = 127;
} // namespace

bool isRange(const PitchRange& range) {
    return range.lowestMidi >= 0 && range.highestMidi <= highestMidiNumber &&
           range.lowestMidi < range.highestMidi;
}

const std::vector<NamedInstrument>& namedInstruments() {
    using enum Instrument;
    static const std::vector<NamedInstrument> all{
        {Guitar, "guitar", {40, 88}},     {Bass, "bass", {28, 67}},          {Trumpet, "trumpet", {52, 86}},
        {Trombone, "trombone", {40, 77}}, {Soprano, "soprano", {56, 91}},    {Alto, "alto", {49, 87}},
        {Tenor, "tenor", {44, 82}},       {Baritone, "baritone", {36, 75}},  {Clarinet, "clarinet", {50, 94}},
        {Flute, "flute", {59, 96}},       {Violin, "violin", {55, 96}},      {Piano, "piano", {28, 96}},
        {Voice, "voice", {40, 84}},       {AnyPlucked, "plucked", {28, 96}}, {AnyWind, "wind", {28, 96}},
        {AnyBowed, "bowed", {28, 96}}};
    return all;
}

const char* wordFor(Instrument instrument) {
    for (const NamedInstrument& named : namedInstruments())
        if (named.instrument == instrument) return named.word;
    return "";
}

PitchRange rangeOf(const LineInstrument& line) {
    if (const auto* range = std::get_if<PitchRange>(&line)) return *range;
    for (const NamedInstrument& named : namedInstruments())
        if (named.instrument == std::get<Instrument>(line)) return named.range;
    return {};
}

std::optional<int> midiNamed(std::string_view text) {
    constexpr int mostSigns = 4;
    const auto name = takeName(text, mostSigns);
    if (!name) return std::nullopt;
    int octave = 0;
    const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), octave);
    if (problem != std::errc() || end != text.data() + text.size() || octave < -1 || octave > 9)
        return std::nullopt;
    const int midi = PitchName{name->step, 0}.pitchClass() + name->alter + 12 * (octave + 1);
    return midi >= 0 && midi <= highestMidiNumber ? std::optional(midi) : std::nullopt;
}

std::optional<LineInstrument> lineInstrumentFrom(std::string_view text) {
    for (const NamedInstrument& named : namedInstruments())
        if (text == named.word) return named.instrument;
    for (const std::string_view dash : {"-", "–"}) {
        // Any of them may part the two: an octave may be −1.
        for (std::size_t at = text.find(dash); at != std::string_view::npos; at = text.find(dash, at + 1)) {
            const auto low = midiNamed(text.substr(0, at));
            const auto high = midiNamed(text.substr(at + dash.size()));
            if (low && high && isRange({*low, *high})) return PitchRange{*low, *high};
        }
    }
    return std::nullopt;
}

} // namespace earwright
