// Which stretches of a bar are tuplets.
#pragma once

#include "core/engraving/BarStretch.h"
#include "core/music/Meter.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace earwright {

/// A stretch of a bar that is divided by itself; in beats of the bar's own meter, from its start.
struct TupletCell {
    Beats begin;
    Beats length;
    /// Its parts that notes begin on: 1 where nothing happens within it.
    std::int64_t parts = 1;
    /// The number over it, where it is a tuplet.
    std::int64_t actual = 1;

    bool isTuplet() const;
    Beats end() const { return begin + length; }
};

/// The tuplets of one bar.
///
/// Three or five notes over two beats, or over the four of a bar, are one tuplet where they hide no beat that
/// something begins on: quarter-note and half-note triplets, where they may stand (mayTupletSpan). Else a
/// beat has a tuplet of its own, or, where only one half of it is divided so, that half.
class TupletCells {
public:
    /// Of a bar that is filled from `begin` on. Requires: `stretches` fill it and outlive this.
    TupletCells(const Meter& meter, const Beats& begin, const std::vector<BarStretch>& stretches);

    /// The cell a place lies in.
    TupletCell at(const Beats& place) const;

private:
    TupletCell cellOf(const Beats& begin, const Beats& length) const;
    TupletCell ofBeat(const Beats& place) const;
    std::optional<TupletCell> wideCell(std::int64_t beat, std::int64_t beats) const;
    bool fillsIt(const TupletCell& cell) const;

    const Meter& meter;
    const std::vector<BarStretch>& bar;
    /// Those longer than a beat, in order.
    std::vector<TupletCell> wide;
};

} // namespace earwright
