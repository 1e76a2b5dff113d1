#include "core/study/StrictJson.h"

#include "core/study/Limits.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string_view>

namespace earwright {

namespace {

const nlohmann::json missing;

/// A number of at most so many digits, all of the text.
std::optional<std::int64_t> digits(std::string_view text, std::size_t most) {
    const auto isDigit = [](char c) { return c >= '0' && c <= '9'; };
    if (text.empty() || text.size() > most || !std::all_of(text.begin(), text.end(), isDigit))
        return std::nullopt;
    std::int64_t value = 0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
}

/// "7/2" or "-1/3".
std::optional<Beats> fraction(std::string_view text) {
    // So many digits hold what Limits.h allows and no more.
    static_assert(largestNumerator == 999'999'999 && largestDenominator == 999);
    const bool negative = text.starts_with('-');
    if (negative) text.remove_prefix(1);
    const std::size_t slash = text.find('/');
    if (slash == std::string_view::npos) return std::nullopt;
    const auto numerator = digits(text.substr(0, slash), 9);
    const auto denominator = digits(text.substr(slash + 1), 3);
    if (!numerator || !denominator || text[slash + 1] == '0') return std::nullopt;
    return Beats(negative ? -*numerator : *numerator, *denominator);
}

std::string plain(double number) {
    return nlohmann::json(number).dump();
}

} // namespace

void FirstProblem::report(const std::string& place, const std::string& reason) {
    if (first) return;
    const std::string subject = place.empty() ? "the whole" : "“" + place + "”";
    first = Error{ErrorKind::Malformed, name + ": " + subject + " " + reason + ".", place};
}

void StrictJson::expectMembers(const std::vector<const char*>& required,
                               const std::vector<const char*>& optional) const {
    if (!json->is_object()) return refuse("must be an object");
    for (const char* member : required)
        if (!json->contains(member)) return refuse(std::string("lacks “") + member + "”");
    const auto isIn = [](const std::vector<const char*>& list, const std::string& name) {
        return std::any_of(list.begin(), list.end(), [&](const char* member) { return name == member; });
    };
    for (const auto& [name, value] : json->items())
        if (!isIn(required, name) && !isIn(optional, name))
            return refuse("has an unknown member “" + name + "”");
}

StrictJson StrictJson::operator[](const char* member) const {
    const std::string place = path.empty() ? member : path + "." + member;
    return {has(member) ? json->at(member) : missing, place, *found};
}

std::vector<StrictJson> StrictJson::items() const {
    std::vector<StrictJson> list;
    if (!json->is_array()) {
        refuse("must be a list");
        return list;
    }
    list.reserve(json->size());
    for (std::size_t i = 0; i < json->size(); ++i)
        list.emplace_back((*json)[i], path + "[" + std::to_string(i) + "]", *found);
    return list;
}

double StrictJson::number(double least, double most) const {
    const double value = json->is_number() ? json->get<double>() : std::nan("");
    if (value >= least && value <= most) return value;
    refuse("must be a number from " + plain(least) + " to " + plain(most));
    return least;
}

std::int64_t StrictJson::whole(std::int64_t least, std::int64_t most) const {
    // As in JSON Schema, 4.0 is a whole number; all limits lie within the whole numbers a double holds
    // exactly.
    const double value = json->is_number() ? json->get<double>() : std::nan("");
    if (value >= static_cast<double>(least) && value <= static_cast<double>(most) &&
        value == std::floor(value))
        return static_cast<std::int64_t>(value);
    refuse("must be a whole number from " + std::to_string(least) + " to " + std::to_string(most));
    return least;
}

bool StrictJson::boolean() const {
    if (json->is_boolean()) return json->get<bool>();
    refuse("must be true or false");
    return false;
}

std::string StrictJson::text() const {
    if (!json->is_string()) {
        refuse("must be text");
        return {};
    }
    std::string value = json->get<std::string>();
    if (value.find('\0') != std::string::npos) refuse("must not contain a NUL character");
    return value;
}

Beats StrictJson::beats() const {
    if (json->is_number()) return Beats(whole(-largestNumerator, largestNumerator));
    if (json->is_string())
        if (const std::optional<Beats> value = fraction(json->get_ref<const std::string&>())) return *value;
    refuse("must be a whole number of beats or a fraction such as \"7/2\"");
    return Beats(1);
}

} // namespace earwright
