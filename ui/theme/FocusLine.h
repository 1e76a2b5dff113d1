// The hairline around the part of the desk that the keyboard is in.
#pragma once

#include <QPainter>
#include <QRectF>

namespace earwright::ui {

/// In ink, just inside the area; `corner` rounds it, in pixels.
void paintFocusLine(QPainter& painter, const QRectF& area, double corner = 0);

} // namespace earwright::ui
