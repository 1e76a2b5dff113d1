// The names over a line of the chorus sheet: where each stands, for the painter and for the pointer.
#pragma once

#include "ui/sheet/SheetGeometry.h"
#include "ui/sheet/SheetModel.h"

#include <QRectF>
#include <QString>

#include <cstddef>
#include <vector>

namespace earwright::ui {

/// A chorus or section that begins with the line. Areas in pixels of the sheet, in type of TextStyle::Title
/// and TextStyle::Small.
struct HeadingName {
    SpanId span;
    QString name;
    QRectF nameArea;
    QString bars;
    QRectF barsArea;
};

/// From left to right. Requires: line < geometry.lines().size(). Threads: interface only, for the fonts.
std::vector<HeadingName> headingNames(const SheetModel& model, const SheetGeometry& geometry,
                                      std::size_t line);

} // namespace earwright::ui
