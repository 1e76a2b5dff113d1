// Draws what the user wrote on a line of the sheet: notes, phrase brackets and loose ends.
#pragma once

#include "ui/sheet/NotePlaces.h"
#include "ui/sheet/SheetGeometry.h"
#include "ui/sheet/SheetModel.h"

#include <QPainter>

namespace earwright::ui {

class WrittenPainter {
public:
    WrittenPainter(const SheetModel& shown, const SheetGeometry& places)
        : model(shown), geometry(places), heights(*shown.study) {}
    void paint(QPainter& painter, std::size_t line) const;

private:
    void paintNotes(QPainter& painter, std::size_t line) const;
    void paintNote(QPainter& painter, std::size_t line, const Note& note) const;
    void paintChosen(QPainter& painter, const QPointF& head, double right) const;
    void paintPhrases(QPainter& painter, std::size_t line) const;
    void paintBracket(QPainter& painter, const Span& phrase, const SheetGeometry::Segment& piece,
                      bool named) const;
    void paintLooseEnds(QPainter& painter, std::size_t line) const;

    const SheetModel& model;
    const SheetGeometry& geometry;
    NotePlaces heights;
};

} // namespace earwright::ui
