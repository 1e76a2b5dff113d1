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
    /// Requires: changes rise by bar, all from bar 2 on.
    MeterMap(const Meter& first, std::vector<MeterChange> changes);

    const Meter& at(std::int64_t bar) const { return standingAt(bar).meter; }
    /// In beats of the first meter.
    Beats barLength(std::int64_t bar) const { return standingAt(bar).barLength; }
    Beats barStart(std::int64_t bar) const;
    /// The bar a place lies in; the pickup bar before bar 1 is bar 0.
    std::int64_t barOf(const Beats& place) const;
    /// From the start of its bar, in beats of the first meter.
    Beats withinBar(const Beats& place) const { return place - barStart(barOf(place)); }
    /// Written beats of the bar's own meter between two places of it.
    Beats inOwnBeats(const Beats& length, std::int64_t bar) const;

private:
    struct Standing {
        std::int64_t firstBar;
        Beats start;
        Beats barLength;
        Meter meter;
    };
    const Standing& standingAt(std::int64_t bar) const;

    int unit;
    /// By bar; the first one also holds for everything before it.
    std::vector<Standing> standings;
};

} // namespace earwright
