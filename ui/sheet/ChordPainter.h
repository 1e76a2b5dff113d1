// Draws the chords over a line of the sheet, and what a check said to each.
#pragma once

#include "ui/sheet/SheetGeometry.h"
#include "ui/sheet/SheetModel.h"

#include <QPainter>

namespace earwright::ui {

/// Behind a symbol that was checked stands a small head in the shapes of checked notes: full where the record
/// bears the chord out, dotted where that is unclear, struck where the record speaks against it.
class ChordPainter {
public:
    ChordPainter(const SheetModel& shown, const SheetGeometry& places) : model(shown), geometry(places) {}
    /// Requires: a line of bars.
    void paint(QPainter& painter, std::size_t line) const;

private:
    void paintChord(QPainter& painter, const ChordSymbol& symbol, const CheckedChord* checked,
                    QRectF room) const;

    const SheetModel& model;
    const SheetGeometry& geometry;
};

} // namespace earwright::ui
