// Where the words for phrasing are offered: beside the selected note where they hide none, else under the
// cells.
#pragma once

#include "core/study/Study.h"
#include "ui/grid/GridGeometry.h"

#include <QRectF>
#include <QSizeF>

#include <optional>

namespace earwright::ui {

/// A place of this size within the cells that covers no note, below the note, or above it; nothing where
/// there is none. Units: pixels of the view.
std::optional<QRectF> freePlaceBeside(const Note& note, QSizeF size, const Study& study,
                                      const GridGeometry& geometry);
/// A place of this size in the lane under the cells, which no note reaches.
QRectF placeUnderCells(QSizeF size, const GridGeometry& geometry);

} // namespace earwright::ui
