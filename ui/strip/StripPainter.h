// Draws the form strip into the part of it that needs drawing.
#pragma once

#include "ui/strip/StripGeometry.h"
#include "ui/strip/StripModel.h"

#include <QPainter>

namespace earwright::ui {

class StripPainter {
public:
    StripPainter(const StripModel& shown, const StripGeometry& places) : model(shown), geometry(places) {}
    void paint(QPainter& painter, const QRectF& exposed) const;

private:
    void paintPage(QPainter& painter) const;
    void paintLevels(QPainter& painter, const QRectF& exposed) const;
    void paintNames(QPainter& painter, const QRectF& exposed) const;
    void paintPhrases(QPainter& painter, const QRectF& exposed) const;
    void paintLooseEnds(QPainter& painter) const;
    void paintLoop(QPainter& painter) const;
    void paintPlayhead(QPainter& painter) const;

    const StripModel& model;
    const StripGeometry& geometry;
};

} // namespace earwright::ui
