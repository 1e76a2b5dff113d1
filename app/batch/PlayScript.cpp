#include "app/batch/PlayScript.h"

#include "app/batch/FocusWords.h"
#include "core/exchange/TabTable.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fstream>
#include <iterator>
#include <optional>
#include <sstream>
#include <system_error>
#include <utility>

namespace earwright::batch {

namespace {

using Kind = PlayStep::Kind;

/// A command that takes one number, and its range.
struct OneNumber {
    const char* name;
    Kind kind;
    double least;
    double most;
};
constexpr double longestSeconds = 1e6;
constexpr OneNumber oneNumber[] = {{"seek", Kind::Seek, 0, longestSeconds},
                                   {"speed", Kind::Speed, 0.1, 2},
                                   {"semitones", Kind::Semitones, -12, 12},
                                   {"cents", Kind::Cents, -100, 100},
                                   {"balance", Kind::Balance, -24, 12}};

/// A row without its last, empty cell gets it back.
std::string withValueCells(const std::string& text) {
    std::string padded;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        if (line.ends_with('\r')) line.pop_back();
        if (std::count(line.begin(), line.end(), '\t') == 1) line += '\t';
        padded += line + '\n';
    }
    return padded;
}

std::vector<std::string> wordsOf(const std::string& text) {
    std::istringstream stream(text);
    return {std::istream_iterator<std::string>(stream), std::istream_iterator<std::string>()};
}

std::optional<double> numberIn(const std::string& word, double least, double most) {
    double value = 0;
    const auto [end, problem] = std::from_chars(word.data(), word.data() + word.size(), value);
    const bool whole = problem == std::errc() && end == word.data() + word.size() && std::isfinite(value);
    if (!whole || value < least || value > most) return std::nullopt;
    return value;
}

Result<PlayStep> loopStep(const TabTable& table, std::size_t row, PlayStep step,
                          const std::vector<std::string>& words) {
    if (words.size() == 2 && words[1] == "off") {
        step.kind = Kind::LoopOff;
        return step;
    }
    const auto begin = words.size() == 3 ? numberIn(words[1], 0, longestSeconds) : std::nullopt;
    const auto end = words.size() == 3 ? numberIn(words[2], 0, longestSeconds) : std::nullopt;
    if (!begin || !end || *end <= *begin)
        return table.errorAt(row, "loop takes two times in seconds, the second later, or “off”");
    step.kind = Kind::Loop;
    step.value = *begin;
    step.loopEnd = *end;
    return step;
}

Result<PlayStep> focusStep(const TabTable& table, std::size_t row, PlayStep step,
                           const std::vector<std::string>& words) {
    step.kind = Kind::Focus;
    if (const auto focus = words.size() == 2 ? focusNamed(words[1]) : std::nullopt) {
        step.focus = *focus;
        return step;
    }
    return table.errorAt(row, "focus takes all, left, right, centre or sides");
}

Result<PlayStep> bandStep(const TabTable& table, std::size_t row, PlayStep step,
                          const std::vector<std::string>& words) {
    if (words.size() == 2 && words[1] == "off") {
        step.kind = Kind::BandOff;
        return step;
    }
    const bool removes = words.size() == 4 && words[3] == "remove";
    const auto edge = [&](std::size_t word) {
        return words.size() == 3 || removes ? numberIn(words[word], Band::lowestHertz, Band::highestHertz)
                                            : std::nullopt;
    };
    const auto low = edge(1);
    const auto high = edge(2);
    if (!low || !high || *high <= *low)
        return table.errorAt(row, "band takes two frequencies from 20 to 20000 Hz, the second higher, and "
                                  "“remove” after them to leave the band out; or “off”");
    step.kind = Kind::Band;
    step.band = {*low, *high, removes};
    return step;
}

Result<PlayStep> holdStep(const TabTable& table, std::size_t row, PlayStep step,
                          const std::vector<std::string>& words) {
    const auto place = words.size() == 2 ? numberIn(words[1], 0, longestSeconds) : std::nullopt;
    const bool letsGo = words.size() == 2 && words[1] == "off";
    if (!place && !letsGo) return table.errorAt(row, "hold takes a time in seconds, or “off”");
    step.kind = letsGo ? Kind::HoldOff : Kind::Hold;
    step.value = place.value_or(0);
    return step;
}

Result<PlayStep> stepOf(const TabTable& table, std::size_t row) {
    PlayStep step;
    const auto at = table.number(row, "at_s");
    if (!at) return at.error();
    if (*at < 0 || *at > longestSeconds) return table.errorAt(row, "at_s lies outside 0 to 1,000,000 s");
    step.at = *at;
    const auto words = wordsOf(table.text(row, "command") + ' ' + table.text(row, "value"));
    const std::string command = words.empty() ? "" : words.front();
    if (command == "loop") return loopStep(table, row, step, words);
    if (command == "focus") return focusStep(table, row, step, words);
    if (command == "band") return bandStep(table, row, step, words);
    if (command == "hold") return holdStep(table, row, step, words);
    for (const OneNumber& known : oneNumber) {
        if (command != known.name) continue;
        const auto value = words.size() == 2 ? numberIn(words[1], known.least, known.most) : std::nullopt;
        if (!value) {
            std::ostringstream reason;
            reason << known.name << " takes a number from " << known.least << " to " << known.most;
            return table.errorAt(row, reason.str());
        }
        step.kind = known.kind;
        step.value = *value;
        return step;
    }
    if (command == "play")
        step.kind = Kind::Play;
    else if (command == "pause")
        step.kind = Kind::Pause;
    else if (command == "quit")
        step.kind = Kind::Quit;
    else
        return table.errorAt(row, "there is no command “" + command + "”");
    if (words.size() != 1) return table.errorAt(row, command + " takes no value");
    return step;
}

} // namespace

Result<std::vector<PlayStep>> parsePlayScript(const std::string& text, const std::string& name) {
    const auto table = TabTable::parse(withValueCells(text), name, {"at_s", "command", "value"});
    if (!table) return table.error();
    std::vector<PlayStep> steps;
    for (std::size_t row = 0; row < table->rowCount(); ++row) {
        auto step = stepOf(*table, row);
        if (!step) return step.error();
        steps.push_back(*step);
    }
    std::stable_sort(steps.begin(), steps.end(),
                     [](const PlayStep& a, const PlayStep& b) { return a.at < b.at; });
    return steps;
}

Result<std::vector<PlayStep>> readPlayScript(const std::filesystem::path& path) {
    // TabTable knows what a text table may be; only then its rows are completed.
    const auto readable = TabTable::read(path, {"at_s", "command"});
    if (!readable && readable.error().kind != ErrorKind::Malformed) return readable.error();
    std::ifstream file(path, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    return parsePlayScript(text, path.string());
}

} // namespace earwright::batch
