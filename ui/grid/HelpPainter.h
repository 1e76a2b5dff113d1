// Paints the help that the user has asked for, in the hint's own blue: marks over columns, and evidence by
// pitch.
#pragma once

#include "ui/grid/GridGeometry.h"
#include "ui/grid/GridScene.h"

#include <QPainter>

namespace earwright::ui {

/// One mark for each opened place, over its column: "?", then an arrow, then how far. No pitch.
void paintHints(QPainter& painter, const GridScene& scene, const GridGeometry& geometry);
/// Dots that grow with the evidence in the cells of one column; octave pairs are joined by an arc.
void paintEvidence(QPainter& painter, const GridScene& scene, const GridGeometry& geometry);

/// What the mark of a hint says: "?", "↑", "↓", "↑ 2".
QString hintMark(const Hint& hint);
/// The column a hint is for; nothing where it lies outside the bars shown. Requires: the study has a tempo.
std::optional<std::size_t> columnOf(const Hint& hint, const GridScene& scene);

} // namespace earwright::ui
