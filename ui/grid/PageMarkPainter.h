// Paints the lane under the cells: dynamics, hairpins and words, at their beats.
#pragma once

#include "ui/grid/GridGeometry.h"
#include "ui/grid/GridScene.h"

#include <QPainter>

namespace earwright::ui {

void paintPageMarks(QPainter& painter, const GridScene& scene, const GridGeometry& geometry);

} // namespace earwright::ui
