#include "app/batch/RangeWords.h"

#include <array>
#include <charconv>
#include <optional>
#include <string_view>
#include <utility>

namespace earwright::batch {

namespace {

using Named = std::pair<std::string_view, LineRange>;

constexpr std::array<Named, 13> instruments{{{"guitar", {40, 88}},
                                             {"bass", {28, 67}},
                                             {"trumpet", {52, 86}},
                                             {"trombone", {40, 77}},
                                             {"soprano", {56, 91}},
                                             {"alto", {49, 87}},
                                             {"tenor", {44, 82}},
                                             {"baritone", {36, 75}},
                                             {"clarinet", {50, 94}},
                                             {"flute", {59, 96}},
                                             {"violin", {55, 96}},
                                             {"piano", {28, 96}},
                                             {"voice", {40, 84}}}};

/// "Bb3", "F#4", "c5": MIDI 60 is C4.
std::optional<int> midiNamed(std::string_view text) {
    constexpr std::string_view letters = "CDEFGAB";
    constexpr std::array pitchClasses{0, 2, 4, 5, 7, 9, 11};
    if (text.empty()) return std::nullopt;
    const char letter = text.front() >= 'a' ? static_cast<char>(text.front() - 'a' + 'A') : text.front();
    const std::size_t step = letters.find(letter);
    if (step == std::string_view::npos) return std::nullopt;
    int midi = pitchClasses[step] + 12;
    text.remove_prefix(1);
    for (; !text.empty() && (text.front() == 'b' || text.front() == '#'); text.remove_prefix(1))
        midi += text.front() == '#' ? 1 : -1;
    int octave = 0;
    const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), octave);
    if (problem != std::errc() || end != text.data() + text.size() || octave < 0 || octave > 9)
        return std::nullopt;
    return midi + 12 * octave;
}

} // namespace

Result<LineRange> rangeNamed(const std::string& word) {
    for (const auto& [name, range] : instruments)
        if (name == word) return range;
    const std::size_t dash = word.find('-');
    const auto low = midiNamed(std::string_view(word).substr(0, dash));
    const auto high =
        dash == std::string::npos ? std::nullopt : midiNamed(std::string_view(word).substr(dash + 1));
    if (low && high && *low < *high) return LineRange{*low, *high};
    std::string names;
    for (const auto& [name, range] : instruments)
        names += (names.empty() ? "" : ", ") + std::string(name);
    return Error{ErrorKind::OutOfRange,
                 "The option --range takes the lowest and highest note, E2-E6, or one of " + names +
                     "; not “" + word + "”.",
                 ""};
}

} // namespace earwright::batch
