// Bars of changing length: which meter stands where.
#pragma once

#include "core/music/Meter.h"

#include <cstdint>
#include <vector>

namespace earwright {

/// From this bar on another meter stands.
struct MeterChange {
    std::int64_t bar = 2;
    Meter meter;
    friend bool operator==(const MeterChange&, const MeterChange&) = default;
};

/// The meters of a piece. Places are counted in beats of the first meter throughout: in a piece that begins
/// in 4/4, a bar of 6/8 lasts three beats. Bars are numbered from 1, bar 1 starts at beat 0; bars before bar
/// 1 have the first meter.
///
/// Threads: a value; any thread may read one that nobody writes.
class MeterMap {
public:
    /// One meter throughout, or the changes named. Requires: changes rise by bar, all from bar 2 on.
    explicit MeterMap(const Meter& first = {}, std::vector<MeterChange> changes = {});

    const Meter& at(std::int64_t bar) const { return standingAt(bar).meter; }
    /// In beats of the first meter.
    Beats barLength(std::int64_t bar) const { return standingAt(bar).barLength; }
    Beats barStart(std::int64_t bar) const;
    /// The bar a place lies in; the pickup bar before bar 1 is bar 0.
    std::int64_t barOf(const Beats& place) const;
    bool isBarLine(const Beats& place) const { return withinBar(place) == Beats(0); }
    /// The bar whose first beat is nearest to a place.
    std::int64_t nearestBar(double beats) const;
    /// Bars from the start of bar 1, with the part of the last one, and back: 8.25 is beat 2 of bar 9 in 4/4.
    double barsAt(double beats) const;
    double beatsAtBars(double bars) const;
    /// The beat that is counted in a bar (Meter::unitsPerCount), in beats of the first meter.
    Beats countLength(std::int64_t bar) const;
    /// Where the counted beat begins that a place lies in. Each bar counts anew.
    Beats countStart(const Beats& place) const;
    /// The same of a place as it is heard, which lies on no line of the page.
    Beats countAt(double beats) const;
    /// The beginning of a counted beat that is nearest to a place.
    Beats nearestCount(double beats) const;
    /// Where the next counted beat begins.
    Beats nextCount(const Beats& place) const;
    /// Where the counted beat begins that begins last before a place.
    Beats previousCount(const Beats& place) const;
    /// From the start of its bar, in beats of the first meter.
    Beats withinBar(const Beats& place) const { return place - barStart(barOf(place)); }
    /// Written beats of the bar's own meter between two places of it.
    Beats inOwnBeats(const Beats& length, std::int64_t bar) const;

    friend bool operator==(const MeterMap&, const MeterMap&) = default;

private:
    struct Standing {
        std::int64_t firstBar;
        Beats start;
        Beats barLength;
        Meter meter;
        friend bool operator==(const Standing&, const Standing&) = default;
    };
    const Standing& standingAt(std::int64_t bar) const;

    int unit;
    /// By bar; the first one also holds for everything before it.
    std::vector<Standing> standings;
};

} // namespace earwright
