// The columns of the note grid: the beats of the bars shown, each divided as the user chose.
#pragma once

#include "core/study/Study.h"
#include "core/time/Beats.h"
#include "core/time/Range.h"

#include <cstddef>
#include <vector>

namespace earwright::ui {

/// One place to write a note in.
struct GridColumn {
    Range<Beats> range;
    /// Where the counted beat begins that it belongs to.
    Beats beat;

    friend bool operator==(const GridColumn&, const GridColumn&) = default;
};

/// All columns of some whole bars, without gaps.
///
/// Units: Beats from the start of bar 1. Threads: a value.
class GridColumns {
public:
    GridColumns() = default;
    /// The whole bars that the range touches; nothing for an empty range.
    GridColumns(const Study& study, const Range<Beats>& range);

    bool isEmpty() const { return list.empty(); }
    std::size_t size() const { return list.size(); }
    const GridColumn& operator[](std::size_t index) const { return list[index]; }
    std::vector<GridColumn>::const_iterator begin() const { return list.begin(); }
    std::vector<GridColumn>::const_iterator end() const { return list.end(); }
    /// The bars shown, as beats.
    const Range<Beats>& range() const { return bars; }

    /// The column a place lies in, or the first or last one for places outside. Requires: !isEmpty().
    std::size_t indexAt(double beats) const;
    std::size_t indexAt(const Beats& place) const;
    /// The column whose beginning is nearest to a place: where a sound that came a little early or late
    /// would be written. Requires: !isEmpty().
    std::size_t indexNearest(double beats) const;

    /// Places where a note may begin or end, `steps` lines away from a place; a place between two lines
    /// counts as one step from each. Stays within the bars shown.
    Beats lineFrom(const Beats& place, int steps) const;

    friend bool operator==(const GridColumns&, const GridColumns&) = default;

private:
    std::vector<GridColumn> list;
    Range<Beats> bars;
};

} // namespace earwright::ui
