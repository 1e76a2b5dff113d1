#include "ui/transport/PlayButton.h"

#include "ui/theme/Theme.h"

#include <QPainter>

namespace earwright::ui {

namespace {

constexpr int diameter = 48;

} // namespace

PlayButton::PlayButton(QWidget* parent) : QAbstractButton(parent) {
    setFocusPolicy(Qt::TabFocus);
    setCursor(Qt::PointingHandCursor);
    setAttribute(Qt::WA_Hover);
    setFixedSize(sizeHint());
    setAccessibleName(tr("Play"));
    setToolTip(tr("Play or pause (Space)"));
}

void PlayButton::setPlaying(bool now) {
    if (playing == now) return;
    playing = now;
    setAccessibleName(playing ? tr("Pause") : tr("Play"));
    update();
}

QSize PlayButton::sizeHint() const {
    return {diameter + 4, diameter + 4};
}

void PlayButton::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QPointF centre = QRectF(rect()).center();
    const double radius = diameter / 2.0;
    if (hasFocus()) {
        painter.setPen(QPen(color(Role::Ink), 1, Qt::DotLine));
        painter.drawEllipse(centre, radius + 1.5, radius + 1.5);
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(color(Role::Ink, isEnabled() ? (isDown() ? 0.8 : underMouse() ? 0.9 : 1.0) : 0.35));
    painter.drawEllipse(centre, radius - 0.5, radius - 0.5);
    painter.setBrush(color(Role::OnMark));
    if (playing) {
        painter.drawRoundedRect(QRectF(centre.x() - 9, centre.y() - 10, 6, 20), 1, 1);
        painter.drawRoundedRect(QRectF(centre.x() + 3, centre.y() - 10, 6, 20), 1, 1);
    } else {
        // Its centre of weight, not of its box, is in the middle of the circle.
        const QPointF triangle[] = {centre + QPointF(-7, -11.5), centre + QPointF(13, 0),
                                    centre + QPointF(-7, 11.5)};
        painter.drawPolygon(triangle, 3);
    }
}

} // namespace earwright::ui
