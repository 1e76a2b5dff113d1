// Paints the written notes of the grid: a head with a thin tail, its phrasing, its degree and, once a check
// was asked for, its verdict.
#pragma once

#include "ui/grid/GridGeometry.h"
#include "ui/grid/GridScene.h"

#include <QPainter>

namespace earwright::ui {

/// All notes that touch the exposed rectangle, clipped to the cells, and small arrows at the edges for those
/// above and below.
void paintNotes(QPainter& painter, const GridScene& scene, const GridGeometry& geometry,
                const QRectF& exposed);

/// Pixels, for a loudness of 0 to 1: louder notes have larger heads and stronger tails.
double headRadius(const Note& note);
double tailWidth(const Note& note);

} // namespace earwright::ui
