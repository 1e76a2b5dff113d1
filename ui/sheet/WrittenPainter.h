// Draws what the user wrote on a line of the sheet: notes, phrase brackets and loose ends.
#pragma once

#include "ui/sheet/NotePlaces.h"
#include "ui/sheet/SheetGeometry.h"
#include "ui/sheet/SheetModel.h"

#include <QPainter>
#include <QPointF>

#include <cstddef>
#include <optional>

namespace earwright::ui {

class WrittenPainter {
public:
    WrittenPainter(const SheetModel& shown, const SheetGeometry& places)
        : model(shown), geometry(places), heights(*shown.study) {}
    void paint(QPainter& painter, std::size_t line) const;
    /// The outline that chosen notes have in the note grid, too. On top of paint().
    void paintChosen(QPainter& painter, std::size_t line) const;

private:
    /// A note as it stands on a line.
    struct Placed {
        QPointF head;
        /// Of its tail.
        double left = 0;
        double right = 0;
        /// Else its head stands on the line before.
        bool isHeadHere = true;
    };
    Placed placed(std::size_t line, const Note& note) const;
    /// Nothing for a line without bars, on which no note stands.
    std::optional<Range<Beats>> beatsOf(std::size_t line) const;
    void paintNotes(QPainter& painter, std::size_t line) const;
    void paintNote(QPainter& painter, std::size_t line, const Note& note) const;
    void paintPhrases(QPainter& painter, std::size_t line) const;
    void paintBracket(QPainter& painter, const Span& phrase, const SheetGeometry::Segment& piece,
                      bool named) const;
    void paintLooseEnds(QPainter& painter, std::size_t line) const;

    const SheetModel& model;
    const SheetGeometry& geometry;
    NotePlaces heights;
};

} // namespace earwright::ui
