#include "app/batch/PlayScript.h"

#include "core/exchange/TabTable.h"
#include "core/study/StudyFile.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fstream>
#include <iterator>
#include <optional>
#include <span>
#include <sstream>
#include <system_error>

namespace earwright::batch {

namespace {

constexpr double longestSeconds = 1e6;

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

std::optional<double> numberIn(const std::string& word, const NumberRange& range) {
    double value = 0;
    const auto [end, problem] = std::from_chars(word.data(), word.data() + word.size(), value);
    const bool isNumber = problem == std::errc() && end == word.data() + word.size() && std::isfinite(value);
    if (!isNumber || value < range.least || value > range.most) return std::nullopt;
    if (range.isWhole && value != std::floor(value)) return std::nullopt;
    return value;
}

bool isWordOf(const PlayVerb& verb, const std::string& text) {
    return std::find(verb.words.begin(), verb.words.end(), text) != verb.words.end();
}

bool readNumbers(const PlayVerb& verb, std::span<const std::string> words, PlayStep& step) {
    if (words.size() != verb.numbers.size()) return false;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const auto number = numberIn(words[i], verb.numbers[i]);
        if (!number) return false;
        step.numbers.push_back(*number);
    }
    return !verb.fits || verb.fits(step.numbers);
}

/// Whether the words are what the command takes; then they are in the step.
bool readValue(const PlayVerb& verb, std::span<const std::string> words, PlayStep& step) {
    if (words.size() == 1 && isWordOf(verb, words[0])) {
        step.word = words[0];
        return true;
    }
    if (!verb.ending.empty() && words.size() == verb.numbers.size() + 1 && words.back() == verb.ending) {
        step.word = verb.ending;
        words = words.first(verb.numbers.size());
    }
    const bool takesNothing = verb.words.empty() && verb.numbers.empty();
    return (takesNothing || !verb.numbers.empty()) && readNumbers(verb, words, step);
}

/// A file's name, spaces and all, then the numbers; or a word in place of both.
bool readSound(const PlayVerb& verb, std::string text, PlayStep& step) {
    const auto words = wordsOf(text);
    if (words.size() == 1 && isWordOf(verb, words[0])) {
        step.word = words[0];
        return true;
    }
    const std::size_t numbers = verb.numbers.size();
    if (words.size() <= numbers) return false;
    for (std::size_t i = 0; i < numbers; ++i)
        text.resize(text.rfind(words[words.size() - 1 - i]));
    const auto first = text.find_first_not_of(' ');
    step.file = text.substr(first, text.find_last_not_of(' ') - first + 1);
    return readNumbers(verb, std::span(words).last(numbers), step);
}

Result<PlayStep> withStudy(const TabTable& table, std::size_t row, PlayStep step) {
    const std::string name = table.text(row, "value");
    if (name.empty()) return table.errorAt(row, step.verb->name + " takes " + step.verb->takes);
    const auto study = StudyFile::read(name);
    if (!study) return table.errorAt(row, describe(study.error()));
    step.study = std::make_shared<const Study>(*study);
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
    for (const PlayVerb& verb : playVerbs()) {
        if (verb.name != command) continue;
        step.verb = &verb;
        if (verb.takesStudy) return withStudy(table, row, step);
        const bool isRead = verb.takesSound ? readSound(verb, table.text(row, "value"), step)
                                            : readValue(verb, std::span(words).subspan(1), step);
        if (isRead) return step;
        return table.errorAt(row, verb.name + " takes " + verb.takes);
    }
    return table.errorAt(row, "there is no command “" + command + "”");
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
