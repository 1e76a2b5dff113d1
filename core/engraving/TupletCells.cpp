#include "core/engraving/TupletCells.h"

#include "core/engraving/PageBars.h"
#include "core/music/TupletSpan.h"
#include "core/time/BeatRatio.h"

#include <algorithm>
#include <bit>
#include <numeric>

namespace earwright {

namespace {

bool isPowerOfTwo(std::int64_t count) {
    return std::has_single_bit(static_cast<std::uint64_t>(count));
}

/// A place of the cell as a share of it, times `of`.
Beats sharesOf(const TupletCell& cell, const Beats& place, std::int64_t of) {
    return ratio((place - cell.begin) * of, cell.length);
}

} // namespace

bool TupletCell::isTuplet() const {
    return !isPowerOfTwo(parts);
}

TupletCells::TupletCells(const Meter& its, const Beats& begin, const std::vector<BarStretch>& stretches)
    : meter(its), bar(stretches) {
    if (pulseBeats(meter) != 1) return;
    for (std::int64_t beat = begin.fraction() == Beats(0) ? begin.floor() : begin.floor() + 1;
         beat + 2 <= meter.beatsPerBar;) {
        auto cell = wideCell(beat, 4);
        if (!cell) cell = wideCell(beat, 2);
        beat = cell ? cell->end().floor() : beat + 1;
        if (cell) wide.push_back(*cell);
    }
}

TupletCell TupletCells::at(const Beats& place) const {
    const auto covers = [&](const TupletCell& cell) { return place >= cell.begin && place < cell.end(); };
    const auto found = std::find_if(wide.begin(), wide.end(), covers);
    return found == wide.end() ? ofBeat(place) : *found;
}

TupletCell TupletCells::cellOf(const Beats& begin, const Beats& length) const {
    TupletCell cell{begin, length, 1, 1};
    for (const BarStretch& stretch : bar)
        if (stretch.begin >= begin && stretch.begin < cell.end())
            cell.parts = std::lcm(cell.parts, sharesOf(cell, stretch.begin, 1).denominator());
    cell.actual = cell.parts;
    return cell;
}

TupletCell TupletCells::ofBeat(const Beats& place) const {
    const Beats beat(place.floor());
    const Beats half(1, 2);
    const TupletCell whole = cellOf(beat, Beats(1));
    const bool startsAtHalf = std::any_of(
        bar.begin(), bar.end(), [&](const BarStretch& stretch) { return stretch.begin == beat + half; });
    if (!whole.isTuplet() || !startsAtHalf) return whole;
    const TupletCell first = cellOf(beat, half);
    const TupletCell second = cellOf(beat + half, half);
    if (first.isTuplet() == second.isTuplet()) return whole;
    return place < second.begin ? first : second;
}

/// A triplet or quintuplet over two or four beats. A third of it may be halved.
std::optional<TupletCell> TupletCells::wideCell(std::int64_t beat, std::int64_t beats) const {
    if (!mayTupletSpan(meter, beat, beats)) return std::nullopt;
    TupletCell cell = cellOf(Beats(beat), Beats(beats));
    cell.actual = cell.parts == 6 ? 3 : cell.parts;
    if (cell.actual != 3 && cell.actual != 5) return std::nullopt;
    if (!fillsIt(cell)) return std::nullopt;
    return cell;
}

/// Whether notes show most of its parts; or half of them, and nothing reaches over its ends. One long note
/// that happens to begin or end there is clearer beat by beat.
bool TupletCells::fillsIt(const TupletCell& cell) const {
    std::int64_t begun = 0;
    bool isClosed = cell.actual == cell.parts;
    for (const BarStretch& stretch : bar) {
        if (stretch.end <= cell.begin || stretch.begin >= cell.end()) continue;
        isClosed = isClosed && stretch.event && stretch.begin >= cell.begin && stretch.end <= cell.end();
        if (stretch.begin <= cell.begin) continue;
        if (sharesOf(cell, stretch.begin, 2).denominator() == 1) return false;
        if (sharesOf(cell, stretch.begin, cell.actual).denominator() == 1) ++begun;
    }
    return 2 * begun > cell.actual - 1 || (isClosed && 2 * begun == cell.actual - 1);
}

} // namespace earwright
