#include "core/exchange/ForeignPart.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <optional>

namespace earwright {

namespace {

constexpr std::size_t longestName = 60;
/// Of a list of parts in an error.
constexpr std::size_t mostNamed = 12;

std::string lower(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text;
}

std::string listOf(const std::vector<ForeignPart>& parts) {
    std::string list;
    for (std::size_t i = 0; i < parts.size() && i < mostNamed; ++i)
        list += (i == 0 ? "" : ", ") + std::to_string(i + 1) + " " + parts[i].name;
    return parts.size() > mostNamed ? list + " and more" : list;
}

std::optional<std::size_t> firstWithNotes(const std::vector<ForeignPart>& parts) {
    for (const bool drums : {false, true})
        for (std::size_t i = 0; i < parts.size(); ++i)
            if (parts[i].notes > 0 && parts[i].isDrums == drums) return i;
    return std::nullopt;
}

std::optional<std::size_t> numbered(const std::string& wish, std::size_t count) {
    std::size_t number = 0;
    const auto [end, problem] = std::from_chars(wish.data(), wish.data() + wish.size(), number);
    if (problem != std::errc() || end != wish.data() + wish.size()) return std::nullopt;
    return number >= 1 && number <= count ? std::optional(number - 1) : std::nullopt;
}

std::vector<std::size_t> named(const std::vector<ForeignPart>& parts, const std::string& wish) {
    std::vector<std::size_t> whole;
    std::vector<std::size_t> begun;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (lower(parts[i].name) == lower(wish)) whole.push_back(i);
        if (lower(parts[i].name).starts_with(lower(wish))) begun.push_back(i);
    }
    return whole.empty() ? begun : whole;
}

} // namespace

Result<std::size_t> chosenPart(const std::vector<ForeignPart>& parts, const std::string& wish,
                               const std::string& file) {
    std::optional<std::size_t> found = wish.empty() ? firstWithNotes(parts) : numbered(wish, parts.size());
    if (wish.empty() && !found) return Error{ErrorKind::Malformed, file + " has no notes.", ""};
    if (!found) {
        const std::vector<std::size_t> fitting = named(parts, wish);
        if (fitting.size() != 1)
            return Error{ErrorKind::OutOfRange,
                         file + " has " + (fitting.empty() ? "no part" : "several parts") + " called “" +
                             wish + "”; its parts are " + listOf(parts) + ". They can be chosen by number.",
                         ""};
        found = fitting.front();
    }
    if (parts[*found].notes == 0)
        return Error{ErrorKind::Malformed,
                     "The part " + parts[*found].name + " of " + file +
                         " has no notes; choose another of its parts: " + listOf(parts) + ".",
                     ""};
    return *found;
}

std::string partName(const std::string& name, const std::string& otherwise) {
    std::string line;
    for (const char c : name) {
        const bool isSpace = static_cast<unsigned char>(c) <= ' ';
        if (!isSpace) line += c;
        if (isSpace && !line.empty() && line.back() != ' ') line += ' ';
    }
    if (line.size() > longestName) {
        line.resize(longestName);
        // Not in the middle of a character: continuation bytes are 10xxxxxx (RFC 3629).
        while (!line.empty() && (static_cast<unsigned char>(line.back()) & 0xC0) == 0x80)
            line.pop_back();
        if (!line.empty() && static_cast<unsigned char>(line.back()) >= 0x80) line.pop_back();
    }
    while (!line.empty() && line.back() == ' ')
        line.pop_back();
    return line.empty() ? otherwise : line;
}

} // namespace earwright
