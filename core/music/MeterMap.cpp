#include "core/music/MeterMap.h"

#include "core/time/BeatRatio.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace earwright {

MeterMap::MeterMap(const Meter& first, std::vector<MeterChange> changes) : unit(first.beatUnit) {
    standings.push_back({1, Beats(0), first.barLength(), first});
    for (const MeterChange& change : changes) {
        const Beats start = barStart(change.bar);
        const Beats length(std::int64_t{change.meter.beatsPerBar} * unit, change.meter.beatUnit);
        standings.push_back({change.bar, start, length, change.meter});
    }
}

const MeterMap::Standing& MeterMap::standingAt(std::int64_t bar) const {
    const auto after =
        std::upper_bound(standings.begin() + 1, standings.end(), bar,
                         [](std::int64_t number, const Standing& s) { return number < s.firstBar; });
    return *std::prev(after);
}

Beats MeterMap::barStart(std::int64_t bar) const {
    const Standing& standing = standingAt(bar);
    return standing.start + standing.barLength * (bar - standing.firstBar);
}

std::int64_t MeterMap::barOf(const Beats& place) const {
    const auto after = std::upper_bound(standings.begin() + 1, standings.end(), place,
                                        [](const Beats& at, const Standing& s) { return at < s.start; });
    const Standing& standing = *std::prev(after);
    return standing.firstBar + ratio(place - standing.start, standing.barLength).floor();
}

double MeterMap::barsAt(double beats) const {
    // The place within a bar is taken from a whole number of beats, which the map can find exactly.
    const std::int64_t bar = barOf(Beats(static_cast<std::int64_t>(std::floor(beats))));
    const auto within = [&](std::int64_t number) {
        return (beats - barStart(number).toDouble()) / barLength(number).toDouble();
    };
    // A bar may end, and another begin, within that beat.
    std::int64_t found = bar;
    while (within(found) >= 1)
        ++found;
    return static_cast<double>(found - 1) + within(found);
}

double MeterMap::beatsAtBars(double bars) const {
    const double whole = std::floor(bars);
    const std::int64_t bar = static_cast<std::int64_t>(whole) + 1;
    return barStart(bar).toDouble() + (bars - whole) * barLength(bar).toDouble();
}

std::int64_t MeterMap::nearestBar(double beats) const {
    return std::llround(std::floor(barsAt(beats) + 0.5)) + 1;
}

Beats MeterMap::countLength(std::int64_t bar) const {
    const Meter& meter = at(bar);
    return Beats(std::int64_t{meter.unitsPerCount()} * unit, meter.beatUnit);
}

Beats MeterMap::countStart(const Beats& place) const {
    const std::int64_t bar = barOf(place);
    const Beats length = countLength(bar);
    return barStart(bar) + length * ratio(withinBar(place), length).floor();
}

Beats MeterMap::nextCount(const Beats& place) const {
    const Beats start = countStart(place);
    return start + countLength(barOf(start));
}

Beats MeterMap::previousCount(const Beats& place) const {
    if (const Beats start = countStart(place); start < place) return start;
    const std::int64_t bar = barOf(place);
    return place - countLength(isBarLine(place) ? bar - 1 : bar);
}

Beats MeterMap::countAt(double beats) const {
    // Counted beats of all meters begin on a line of it: units are halves of halves.
    constexpr std::int64_t finest = 1024;
    return countStart(
        Beats(static_cast<std::int64_t>(std::floor(beats * static_cast<double>(finest))), finest));
}

Beats MeterMap::nearestCount(double beats) const {
    const Beats before = countAt(beats);
    const Beats after = nextCount(before);
    return beats - before.toDouble() < after.toDouble() - beats ? before : after;
}

Beats MeterMap::inOwnBeats(const Beats& length, std::int64_t bar) const {
    return length * at(bar).beatUnit / unit;
}

} // namespace earwright
