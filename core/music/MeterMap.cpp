#include "core/music/MeterMap.h"

#include <algorithm>
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
    const Beats since = place - standing.start;
    // since / barLength, both fractions.
    const Beats bars(since.numerator() * standing.barLength.denominator(),
                     since.denominator() * standing.barLength.numerator());
    return standing.firstBar + bars.floor();
}

Beats MeterMap::inOwnBeats(const Beats& length, std::int64_t bar) const {
    return length * at(bar).beatUnit / unit;
}

} // namespace earwright
