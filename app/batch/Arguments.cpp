#include "app/batch/Arguments.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>

namespace earwright::batch {

namespace {

Error usage(const std::string& sentence) {
    return {ErrorKind::OutOfRange, sentence, ""};
}

Result<double> numberFrom(const std::string& given, std::string_view option, double least, double most) {
    double value = 0;
    const auto [end, problem] = std::from_chars(given.data(), given.data() + given.size(), value);
    if (problem != std::errc() || end != given.data() + given.size() || !std::isfinite(value))
        return usage("The option " + std::string(option) + " takes a number, not “" + given + "”.");
    if (value < least || value > most) {
        char range[80];
        std::snprintf(range, sizeof range, "%g to %g", least, most);
        return usage("The option " + std::string(option) + " takes " + range + ", not " + given + ".");
    }
    return value;
}

} // namespace

Result<Arguments> Arguments::parse(std::span<const std::string> words, std::size_t alone,
                                   const std::vector<std::string>& options,
                                   const std::vector<std::string>& pairs) {
    Arguments parsed;
    bool optionsEnded = false;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& word = words[i];
        if (!optionsEnded && word == "--") {
            optionsEnded = true;
        } else if (!optionsEnded && word.starts_with("--")) {
            const bool takesTwo = std::find(pairs.begin(), pairs.end(), word) != pairs.end();
            if (!takesTwo && std::find(options.begin(), options.end(), word) == options.end())
                return usage("There is no option " + word + " here.");
            if (++i == words.size()) return usage("The option " + word + " needs a value.");
            std::string value = words[i];
            if (takesTwo) {
                if (++i == words.size()) return usage("The option " + word + " needs two values.");
                value += ' ' + words[i];
            }
            if (!parsed.values.emplace(word, value).second)
                return usage("The option " + word + " is given twice.");
        } else {
            parsed.words.push_back(word);
        }
    }
    if (parsed.words.size() != alone)
        return usage("This command takes " + std::to_string(alone) + (alone == 1 ? " file" : " files") +
                     ", not " + std::to_string(parsed.words.size()) + ".");
    return parsed;
}

std::optional<std::string> Arguments::text(std::string_view option) const {
    const auto found = values.find(option);
    if (found == values.end()) return std::nullopt;
    return found->second;
}

Result<double> Arguments::number(std::string_view option, double least, double most, double byDefault) const {
    const auto given = text(option);
    return given ? numberFrom(*given, option, least, most) : Result<double>(byDefault);
}

Result<std::optional<std::pair<double, double>>> Arguments::twoNumbers(std::string_view option, double least,
                                                                       double most) const {
    using Pair = std::optional<std::pair<double, double>>;
    const auto given = text(option);
    if (!given) return Pair();
    const std::size_t gap = given->find(' ');
    const auto first = numberFrom(given->substr(0, gap), option, least, most);
    if (!first) return first.error();
    const auto second = numberFrom(given->substr(gap + 1), option, least, most);
    if (!second) return second.error();
    if (*second <= *first)
        return usage("The option " + std::string(option) + " takes two numbers, the second greater.");
    return Pair({*first, *second});
}

int complain(const Error& error, int exitCode) {
    std::fprintf(stderr, "earwright-batch: %s\n", describe(error).c_str());
    return exitCode;
}

} // namespace earwright::batch
