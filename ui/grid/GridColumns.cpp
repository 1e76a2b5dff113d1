#include "ui/grid/GridColumns.h"

#include <algorithm>

namespace earwright::ui {

namespace {

/// The whole bars that a range touches.
Range<Beats> wholeBars(const Range<Beats>& range, const MeterMap& meters) {
    const std::int64_t last = meters.barOf(range.end);
    const bool endsOnLine = meters.isBarLine(range.end);
    return {meters.barStart(meters.barOf(range.begin)), endsOnLine ? range.end : meters.barStart(last + 1)};
}

} // namespace

GridColumns::GridColumns(const Study& study, const Range<Beats>& range) {
    if (range.isEmpty()) return;
    const MeterMap meters = study.meters();
    bars = wholeBars(range, meters);
    for (Beats beat = bars.begin; beat < bars.end; beat = meters.nextCount(beat)) {
        const auto parts = static_cast<std::int64_t>(study.divisionOf(beat));
        const Beats length = meters.nextCount(beat) - beat;
        for (std::int64_t part = 0; part < parts; ++part)
            list.push_back({{beat + length * part / parts, beat + length * (part + 1) / parts}, beat});
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
