#include "ui/theme/FocusLine.h"

#include "ui/theme/Theme.h"

namespace earwright::ui {

void paintFocusLine(QPainter& painter, const QRectF& area, double corner) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(color(Role::Ink), 1));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(area.adjusted(0.5, 0.5, -0.5, -0.5), corner, corner);
    painter.restore();
}

} // namespace earwright::ui
