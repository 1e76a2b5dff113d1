// Draws the loop on the sheet: its ground, its brackets and its pill of speed steps.
#pragma once

#include "ui/sheet/SheetGeometry.h"
#include "ui/sheet/SheetModel.h"

#include <QPainter>

namespace earwright::ui {

class LoopPainter {
public:
    LoopPainter(const SheetModel& shown, const SheetGeometry& places) : model(shown), geometry(places) {}
    /// Under everything else on the line: the loop's ground, and the chosen stretch's.
    void paintGround(QPainter& painter, std::size_t line) const;
    void paintBrackets(QPainter& painter, std::size_t line) const;
    /// Once for the whole sheet.
    void paintPill(QPainter& painter) const;

private:
    const SheetModel& model;
    const SheetGeometry& geometry;
};

} // namespace earwright::ui
