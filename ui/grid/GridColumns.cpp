#include "ui/grid/GridColumns.h"

#include <algorithm>

namespace earwright::ui {

namespace {

/// The whole bars that a range touches.
Range<Beats> wholeBars(const Range<Beats>& range, const Meter& meter) {
    const Beats begin = meter.barStart(meter.barOf(range.begin));
    const Beats lastBar = meter.barStart(meter.barOf(range.end));
    return {begin, lastBar == range.end ? range.end : lastBar + meter.barLength()};
}

} // namespace

GridColumns::GridColumns(const Study& study, const Range<Beats>& range) {
    if (range.isEmpty()) return;
    bars = wholeBars(range, study.meter);
    for (std::int64_t beat = bars.begin.floor(); Beats(beat) < bars.end; ++beat) {
        const auto parts = static_cast<std::int64_t>(study.divisionOf(beat));
        for (std::int64_t part = 0; part < parts; ++part) {
            const Beats start = Beats(beat) + Beats(part, parts);
            list.push_back({{start, start + Beats(1, parts)}, beat});
        }
    }
}

std::size_t GridColumns::indexAt(double beats) const {
    const auto after =
        std::upper_bound(list.begin(), list.end(), beats, [](double place, const auto& column) {
            return place < column.range.begin.toDouble();
        });
    return after == list.begin() ? 0 : static_cast<std::size_t>(after - list.begin()) - 1;
}

std::size_t GridColumns::indexAt(const Beats& place) const {
    const auto after =
        std::upper_bound(list.begin(), list.end(), place,
                         [](const Beats& at, const auto& column) { return at < column.range.begin; });
    return after == list.begin() ? 0 : static_cast<std::size_t>(after - list.begin()) - 1;
}

std::size_t GridColumns::indexNearest(double beats) const {
    const std::size_t under = indexAt(beats);
    if (under + 1 == list.size()) return under;
    const double before = beats - list[under].range.begin.toDouble();
    const double after = list[under].range.end.toDouble() - beats;
    return after < before ? under + 1 : under;
}

int GridColumns::finestDivision() const {
    std::int64_t finest = 1;
    for (const GridColumn& column : list)
        finest = std::max(finest, column.range.length().denominator());
    return static_cast<int>(finest);
}

Beats GridColumns::lineFrom(const Beats& place, int steps) const {
    if (isEmpty()) return place;
    Beats line = place;
    for (; steps > 0 && line < bars.end; --steps)
        line = list[indexAt(line)].range.end;
    for (; steps < 0 && bars.begin < line; ++steps) {
        const GridColumn& column = list[indexAt(line)];
        line = column.range.begin < line && line <= column.range.end ? column.range.begin
                                                                     : list[indexAt(line) - 1].range.begin;
    }
    return std::clamp(line, bars.begin, bars.end);
}

} // namespace earwright::ui
