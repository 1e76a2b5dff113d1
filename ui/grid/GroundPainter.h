// Paints what the notes of the grid stand on: rows, beats, chords, the beat ruler and the row names.
#pragma once

#include "ui/grid/GridGeometry.h"
#include "ui/grid/GridScene.h"

#include <QPainter>

namespace earwright::ui {

/// Rows, lines and everything around the cells, within the exposed rectangle.
void paintGround(QPainter& painter, const GridScene& scene, const GridGeometry& geometry,
                 const QRectF& exposed);
/// The cursor's cell, where no note is: a selected note is framed with the notes.
void paintCursor(QPainter& painter, const GridScene& scene, const GridGeometry& geometry);
/// Half the width of the playhead's foot, in pixels.
inline constexpr double playheadFoot = 4;
/// The line where the ear is, over everything.
void paintPlayhead(QPainter& painter, const GridScene& scene, const GridGeometry& geometry);

/// The colour of a cell: tones of its chord lie on the page, the others are quiet.
QColor cellGround(const GridScene& scene, const Beats& place, int midi);

} // namespace earwright::ui
