#include "ui/grid/LadderSteps.h"

#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QMouseEvent>
#include <QPainter>

#include <algorithm>

namespace earwright::ui {

namespace {

constexpr double radius = 6.5;
constexpr int stepCount = 4;

} // namespace

LadderSteps::LadderSteps(QWidget* parent)
    : QWidget(parent), labels{tr("off"), tr("which way"), tr("how far"), tr("show it")} {
    setAccessibleName(tr("Steps of help"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setStep(HelpStep::None);
}

void LadderSteps::setStep(HelpStep step) {
    opened = step;
    const auto count = static_cast<int>(step);
    setAccessibleDescription(count == 0 ? tr("no step opened") : tr("opened: %1").arg(labels[count - 1]));
    setCursor(step == HelpStep::ShowIt ? Qt::ArrowCursor : Qt::PointingHandCursor);
    update();
}

QSize LadderSteps::sizeHint() const {
    return {340, QFontMetrics(ui::font(TextStyle::Body)).height() + spacing::small};
}

double LadderSteps::labelWidth(int index) const {
    return QFontMetricsF(ui::font(TextStyle::Small)).horizontalAdvance(labels[index]);
}

QPointF LadderSteps::circle(HelpStep step) const {
    // Equal lengths of dotted line between a label's end and the next circle.
    double words = 0;
    for (int i = 0; i < stepCount; ++i)
        words += 2 * radius + spacing::small + labelWidth(i);
    const double line = std::clamp((width() - words - 2) / (stepCount - 1), 8.0, 64.0);
    double x = radius + 1;
    for (int i = 0; i < static_cast<int>(step) - 1; ++i)
        x += 2 * radius + spacing::small + labelWidth(i) + line;
    return {x, height() / 2.0};
}

void LadderSteps::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setFont(ui::font(TextStyle::Small));
    const QColor blue = color(Role::Hint);
    QPen dots(blue, 1.4, Qt::CustomDashLine, Qt::RoundCap);
    dots.setDashPattern({0.01, 3});
    for (int i = 0; i < stepCount; ++i) {
        const QPointF centre = circle(static_cast<HelpStep>(i + 1));
        const bool isOpen = i < static_cast<int>(opened);
        painter.setPen(QPen(blue, 1.8));
        painter.setBrush(isOpen ? blue : color(Role::Page));
        painter.drawEllipse(centre, radius - 0.9, radius - 0.9);
        const double left = centre.x() + radius + spacing::tight + 1;
        painter.setPen(color(isOpen ? Role::Ink : Role::Muted));
        painter.drawText(QRectF(left, 0, labelWidth(i) + 1, height()), Qt::AlignVCenter, labels[i]);
        if (i + 1 == stepCount) break;
        const double from = left + labelWidth(i) + spacing::tight;
        const double to = circle(static_cast<HelpStep>(i + 2)).x() - radius - spacing::tight;
        painter.setPen(dots);
        if (to > from) painter.drawLine(QPointF(from, centre.y()), QPointF(to, centre.y()));
    }
}

void LadderSteps::mouseReleaseEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton && rect().contains(event->pos()) && opened != HelpStep::ShowIt)
        emit nextRequested();
}

} // namespace earwright::ui
