#include "core/study/DayText.h"

#include <charconv>
#include <cstdio>

namespace earwright {

namespace {

std::optional<int> number(std::string_view digits) {
    int value = 0;
    const auto [end, problem] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    const bool isWhole =
        problem == std::errc() && end == digits.data() + digits.size() && digits.front() != '-';
    return isWhole ? std::optional(value) : std::nullopt;
}

} // namespace

std::string dayText(Day day) {
    const std::chrono::year_month_day date(day);
    char text[32];
    std::snprintf(text, sizeof text, "%04d-%02u-%02u", static_cast<int>(date.year()),
                  static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
    return text;
}

std::optional<Day> dayFrom(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
    const auto year = number(text.substr(0, 4));
    const auto month = number(text.substr(5, 2));
    const auto day = number(text.substr(8, 2));
    if (!year || !month || !day || *year < 1) return std::nullopt;
    const std::chrono::year_month_day date{std::chrono::year(*year),
                                           std::chrono::month(static_cast<unsigned>(*month)),
                                           std::chrono::day(static_cast<unsigned>(*day))};
    return date.ok() ? std::optional<Day>(date) : std::nullopt;
}

} // namespace earwright
