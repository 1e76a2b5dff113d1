// What the recording says to a sign of phrasing of a note, as a small shape at it.
#pragma once

#include "core/check/PhrasingMark.h"
#include "ui/grid/GridGeometry.h"
#include "ui/grid/SignPlaces.h"

#include <QColor>
#include <QPainter>

namespace earwright::ui {

/// Where the answer to one sign stands: beside it, clear of the head. Pixels of the view.
QPointF answerPlace(PhrasingMark mark, const Note& note, const GridGeometry& geometry, const SignRoom& room);

/// In the shapes of the note heads: a full dot is supported, a dotted ring unclear, a ring struck through
/// contradicted.
void paintMarkAnswer(QPainter& painter, const Note& note, const GridGeometry& geometry, const SignRoom& room,
                     const MarkAnswer& answer, const QColor& colour, const QColor& ground);

} // namespace earwright::ui
