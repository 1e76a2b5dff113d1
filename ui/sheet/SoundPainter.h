// Draws what the recording is on a line of the sheet: its level and where sounds begin, never its pitches.
#pragma once

#include "ui/sheet/SheetGeometry.h"
#include "ui/sheet/SheetModel.h"

#include <QPainter>

namespace earwright::ui {

class SoundPainter {
public:
    SoundPainter(const SheetModel& shown, const SheetGeometry& places) : model(shown), geometry(places) {}
    void paint(QPainter& painter, std::size_t line) const;

private:
    void paintLevel(QPainter& painter, std::size_t line) const;
    void paintOnsets(QPainter& painter, std::size_t line) const;

    const SheetModel& model;
    const SheetGeometry& geometry;
};

} // namespace earwright::ui
