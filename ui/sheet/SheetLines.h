// How a recording is broken into the lines of the chorus sheet: bars as on a lead sheet, or equal seconds.
#pragma once

#include "core/study/Study.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace earwright::ui {

/// Consecutive bars by number; bars before bar 1 have numbers below 1.
struct BarRun {
    std::int64_t first = 1;
    std::int64_t count = 4;
    friend bool operator==(const BarRun&, const BarRun&) = default;
};

/// One line of the sheet.
struct SheetLine {
    /// None while no bars are marked: then the line is one of equal seconds.
    std::optional<BarRun> bars;
    /// What it covers, also where that lies before the recording's start or after its end.
    Range<Seconds> time;
    /// Choruses and sections that begin with this line.
    std::vector<Span> begins;
};

/// How much goes on a line.
struct LineLength {
    std::int64_t bars = 4;
    Seconds seconds{8.0};
    friend bool operator==(const LineLength&, const LineLength&) = default;
};

/// Lines that together cover the recording, in order, each starting where the one before ends. Every chorus
/// and every section starts a line, so that the same bar of two choruses stands in the same column.
std::vector<SheetLine> breakIntoLines(const Study& study, Seconds duration, const LineLength& length);

} // namespace earwright::ui
