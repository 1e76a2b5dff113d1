// Draws one small sign of phrasing into its place over or under a head.
#pragma once

#include "core/music/Note.h"
#include "ui/grid/SignPlaces.h"

#include <QColor>
#include <QPainter>

namespace earwright::ui {

void paintSign(QPainter& painter, const PlacedSign& sign, const Phrasing& phrasing, const QColor& colour);

/// "1", "½", "1½": how far a bend goes, in whole tones as tablature says it (common practice).
QString bendText(const Bend& bend);

/// A rounded wave from left to right around a height: vibrato.
void paintWave(QPainter& painter, double left, double right, double y);

} // namespace earwright::ui
