// Where the words for phrasing are offered: beside the selected note, hiding as few notes as can be.
#pragma once

#include "core/study/Study.h"
#include "ui/grid/GridGeometry.h"

#include <QRectF>
#include <QSizeF>

namespace earwright::ui {

/// A place of this size within the cells that never covers the note itself, as far as the cells have room.
/// Units: pixels of the view.
QRectF placeBeside(const Note& note, QSizeF size, const Study& study, const GridGeometry& geometry);

} // namespace earwright::ui
