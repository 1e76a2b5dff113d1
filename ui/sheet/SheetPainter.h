// Draws the chorus sheet into the part of it that needs drawing.
#pragma once

#include "ui/sheet/SheetGeometry.h"
#include "ui/sheet/SheetModel.h"

#include <QPainter>

namespace earwright::ui {

class SheetPainter {
public:
    SheetPainter(const SheetModel& shown, const SheetGeometry& places) : model(shown), geometry(places) {}
    /// Everything that stays where it is while the music runs.
    void paint(QPainter& painter, const QRectF& exposed) const;
    /// Where the ear is; drawn over the rest, frame by frame.
    void paintPlayhead(QPainter& painter) const;
    /// The mark of a held instant, over the rest: a ring around a full dot on the playhead's line.
    /// Notes chosen in the note grid, on the lines that an area of the sheet meets.
    void paintChosen(QPainter& painter, const QRectF& exposed) const;
    void paintHeld(QPainter& painter) const;
    /// The handle of the mark near the hand, over the rest.
    void paintMarkHandle(QPainter& painter) const;
    static QRectF handleArea(const SheetGeometry& geometry, Seconds mark);
    /// What has to be drawn anew when the ear leaves or reaches a place.
    static QRectF playheadArea(const SheetGeometry& geometry, Seconds heard);
    /// "bars 25–36" of a span, or its length in time before bars are marked.
    static QString barsText(const Study& study, const Range<Seconds>& range);

private:
    void paintLine(QPainter& painter, std::size_t line) const;
    void paintHeading(QPainter& painter, std::size_t line) const;
    void paintBars(QPainter& painter, std::size_t line) const;
    /// Meter, key, swing, tempo and repeats, where they begin.
    void paintSigns(QPainter& painter, std::int64_t bar, const QRectF& room) const;
    void paintSeconds(QPainter& painter, std::size_t line) const;
    void paintMarks(QPainter& painter, std::size_t line) const;

    const SheetModel& model;
    const SheetGeometry& geometry;
};

} // namespace earwright::ui
