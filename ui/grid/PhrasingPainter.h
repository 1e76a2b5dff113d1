// Paints how a note is played: signs over, under and beside its head, and what joins it to the next note.
#pragma once

#include "ui/grid/GridGeometry.h"

#include <QColor>
#include <QPainter>

namespace earwright::ui {

/// Everything but what joins notes. Radius: of the note's head, in pixels; hasDegree: its degree is lettered
/// over it.
void paintPhrasing(QPainter& painter, const Note& note, const GridGeometry& geometry, double radius,
                   bool hasDegree, const QColor& colour);
/// Too short on the screen for signs beside its head.
bool isNarrow(const Note& note, const GridGeometry& geometry);
/// A straight line to the head of the next note.
void paintSlideOn(QPainter& painter, QPointF from, QPointF to, const QColor& colour);
/// An arc under the line from the head of one note to that of the next.
void paintSlur(QPainter& painter, QPointF from, QPointF to, const QColor& colour);

} // namespace earwright::ui
