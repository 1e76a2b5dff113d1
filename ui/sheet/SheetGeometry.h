// Where everything lies on the chorus sheet: lines from top to bottom, beats aligned from line to line.
#pragma once

#include "ui/sheet/SheetLines.h"

#include <QPointF>
#include <QRectF>

#include <vector>

namespace earwright::ui {

/// The distances of the sheet, in pixels.
struct SheetMetrics {
    double width = 900;
    double margin = 4;
    double topMargin = 8;
    double headingRow = 30;
    /// Room above the chords for the loop's pill.
    double pillRow = 18;
    double chordRow = 25;
    double box = 150;
    double bracketRow = 31;
    friend bool operator==(const SheetMetrics&, const SheetMetrics&) = default;

    /// Metrics that let a blues chorus (three lines and a heading) fill a view of this size, within reason.
    static SheetMetrics filling(double width, double height);
};

/// Maps the recording's time to places on the sheet and back. In a line of bars beats are evenly spaced,
/// whatever the band does, and bars are equally wide whatever their meter; in a line of seconds seconds are.
///
/// Units: pixels from the sheet's top left corner; Seconds of the recording.
class SheetGeometry {
public:
    /// A piece of a stretch of time that lies on one line.
    struct Segment {
        std::size_t line = 0;
        double left = 0;
        double right = 0;
        /// Whether the stretch begins, and ends, in this piece.
        bool begins = false;
        bool ends = false;
    };

    SheetGeometry() = default;
    SheetGeometry(const Study& study, Seconds duration, const LineLength& length,
                  const SheetMetrics& metrics);

    const std::vector<SheetLine>& lines() const { return list; }
    const SheetMetrics& metrics() const { return sizes; }
    Seconds duration() const { return whole; }
    bool hasBars() const { return map.hasTempo(); }
    double height() const;

    QRectF heading(std::size_t line) const;
    QRectF chordRow(std::size_t line) const;
    /// The framed part with level, onsets and notes; as wide as the line has bars.
    QRectF box(std::size_t line) const;
    /// The part of the box in which there is recording: the first and last line may reach beyond it.
    QRectF sounding(std::size_t line) const;
    QRectF bracketRow(std::size_t line) const;
    /// Everything that belongs to a line, the pill above it included.
    QRectF lineBand(std::size_t line) const;

    /// Horizontal place of a time on a line; outside the box for times that lie on other lines.
    double x(std::size_t line, Seconds time) const;
    double barX(std::size_t line, std::int64_t bar) const;
    /// The line a time lies on. Requires: lines() not empty; times outside are drawn to the first and last.
    std::size_t lineOf(Seconds time) const;
    /// The line nearest to a height. Requires: lines() not empty.
    std::size_t lineAt(double y) const;
    /// The time under a point, within its line and within the recording.
    Seconds timeAt(const QPointF& point) const;
    /// The time of a horizontal place on a line.
    Seconds timeAt(std::size_t line, double x) const;
    /// The pieces of a stretch, line by line. A piece of a few pixels at a line's edge is left out where the
    /// stretch goes on beyond it.
    std::vector<Segment> segments(const Range<Seconds>& range) const;
    /// Seconds that a number of pixels stands for at a place.
    Seconds reach(std::size_t line, double x, double pixels) const;

private:
    /// Bars, or seconds, that the full width stands for.
    double unitsAcross() const;

    std::vector<SheetLine> list;
    std::vector<double> tops;
    BeatMap map;
    MeterMap meters;
    LineLength length;
    SheetMetrics sizes;
    Seconds whole;
};

} // namespace earwright::ui
