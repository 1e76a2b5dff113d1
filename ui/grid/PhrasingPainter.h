// Paints how a note is played: slides, grace notes, trill, slur, ghost and accent around its head.
#pragma once

#include "ui/grid/GridGeometry.h"

#include <QColor>
#include <QPainter>

namespace earwright::ui {

/// Everything but the slur. Radius: of the note's head, in pixels.
void paintPhrasing(QPainter& painter, const Note& note, const GridGeometry& geometry, double radius,
                   const QColor& colour);
/// An arc under the line from the head of one note to that of the next.
void paintSlur(QPainter& painter, QPointF from, QPointF to, const QColor& colour);

} // namespace earwright::ui
