#include "core/exchange/MusicXmlLength.h"

#include "core/exchange/MusicXmlWords.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>

namespace earwright {

namespace {

constexpr std::int64_t longestDuration = 10'000'000;
/// The shortest note that is printed, of a quarter, under six dots.
constexpr std::int64_t finestParts = 128 * 64;
constexpr int mostDots = 6;
constexpr int mostInATuplet = 64;
/// Of a rounded length to the printed one.
constexpr double mostRounded = 0.03;

/// By note head, dots and tuplet; nothing where they do not tell.
std::optional<Beats> printedLength(pugi::xml_node note) {
    const double head = quartersIn(note.child_value("type"));
    const auto dots = note.children("dot");
    const auto count = std::distance(dots.begin(), dots.end());
    if (head <= 0 || count > mostDots) return std::nullopt;
    const Beats plain = Beats::nearest(head * (2 - std::ldexp(1.0, -static_cast<int>(count))), finestParts);
    const pugi::xml_node tuplet = note.child("time-modification");
    if (!tuplet) return plain;
    const int actual = tuplet.child("actual-notes").text().as_int();
    const int normal = tuplet.child("normal-notes").text().as_int();
    if (std::min(actual, normal) < 1 || std::max(actual, normal) > mostInATuplet) return std::nullopt;
    return plain * normal / actual;
}

} // namespace

Beats musicXmlLength(pugi::xml_node element, std::int64_t perQuarter) {
    const auto duration =
        std::clamp<std::int64_t>(element.child("duration").text().as_llong(), 0, longestDuration);
    const Beats told(duration, perQuarter);
    const auto printed = printedLength(element);
    if (duration == 0 || !printed || *printed == told) return told;
    const double apart = std::abs(printed->toDouble() - told.toDouble());
    const bool isRounded =
        apart * static_cast<double>(perQuarter) < 1 && apart < mostRounded * printed->toDouble();
    return isRounded ? *printed : told;
}

} // namespace earwright
