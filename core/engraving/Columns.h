// How the moments of a line are spread over its width.
#pragma once

#include "core/time/Beats.h"

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace earwright {

/// Things that share a height and so must not meet from column to column.
enum class ColumnRow { Staff, Chords, Degrees, Frets, Dynamics };
inline constexpr std::size_t columnRows = 5;

/// What a column holds in a row, about the column's x: how far it reaches to the left (positive) and right.
struct Reach {
    double left = 0;
    double right = 0;
};

/// A moment at which something begins, or a bar line.
struct Column {
    Beats at;
    /// Quarters until the next column: what its spring is as long as; 0 for a bar line.
    double quarters = 0;
    std::array<std::optional<Reach>, columnRows> rows;
    /// At least so far behind the column before, for what stands behind a bar line.
    double leastGap = 0;

    std::optional<Reach>& row(ColumnRow which) { return rows[static_cast<std::size_t>(which)]; }
};

/// x of each column, the first reaching no further left than 0, so that the last one (the closing bar line)
/// stands at `width`.
///
/// Columns are as far apart as springs push them, in proportion to duration^0.6, and never closer than what
/// they hold allows: rods and springs after Gourlay (Spacing a Line of Music, OSU-CISRC-10/87-TR35, 1987) and
/// Blostein and Haken (Justification of Printed Music, CACM 34(3), 1991); the exponent is between the square
/// root and the tables of the engravers (from memory). Where even the rods are too long, everything is
/// squeezed. Threads: any.
std::vector<double> spreadOver(double width, const std::vector<Column>& columns);
/// The same with springs of a given strength: staff spaces a quarter gets.
std::vector<double> spreadWith(double quarterSpaces, const std::vector<Column>& columns);
/// The strength that spreadOver() found.
double quarterSpacesFor(double width, const std::vector<Column>& columns);
/// A quarter has at least so much room in a line that reads well.
inline constexpr double tightQuarter = 3.2;

} // namespace earwright
