#include "ui/takes/LevelMeter.h"

#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr double quietestDecibels = -60;
constexpr double fallEachCall = 0.04;
constexpr qint64 clippingShownMilliseconds = 3000;
constexpr int barWidth = 130;
constexpr int barHeight = 8;

} // namespace

LevelMeter::LevelMeter(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Input level"));
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void LevelMeter::setLevel(float peak, bool isClipped) {
    const double decibels = peak > 0 ? 20 * std::log10(static_cast<double>(peak)) : quietestDecibels;
    const double now = std::clamp(1 - decibels / quietestDecibels, 0.0, 1.0);
    share = std::max(now, share - fallEachCall);
    if (isClipped) {
        wasClipped = true;
        sinceClipped.restart();
    }
    const QString words =
        showsClipping() ? tr("too loud: turn the input down") : tr("%1 decibels").arg(std::lround(decibels));
    // Each change is told to those who listen to the screen.
    if (words != accessibleDescription()) setAccessibleDescription(words);
    update();
}

bool LevelMeter::showsClipping() const {
    return wasClipped && sinceClipped.elapsed() < clippingShownMilliseconds;
}

QSize LevelMeter::sizeHint() const {
    const QFontMetrics metrics(ui::font(TextStyle::Small));
    return {barWidth + spacing::small + metrics.horizontalAdvance(tr("too loud")),
            metrics.height() + spacing::tight};
}

void LevelMeter::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const bool clipping = showsClipping();
    const QRectF ground(0.5, (height() - barHeight) / 2.0, barWidth - 1, barHeight);
    painter.setPen(QPen(color(Role::Rule), 1));
    painter.setBrush(color(Role::Page));
    painter.drawRoundedRect(ground, 2, 2);
    QRectF filled = ground.adjusted(1, 1, -1, -1);
    filled.setWidth(filled.width() * share);
    painter.setPen(Qt::NoPen);
    painter.setBrush(color(clipping ? Role::LooseEnd : Role::Written));
    painter.drawRect(filled);
    if (!clipping) return;
    painter.setPen(QPen(color(Role::LooseEnd), spacing::hair));
    painter.drawLine(QPointF(barWidth - 4, 2), QPointF(barWidth - 4, height() - 2));
    painter.setFont(ui::font(TextStyle::Small));
    painter.drawText(rect().adjusted(barWidth + spacing::small, 0, 0, 0), Qt::AlignVCenter, tr("too loud"));
}

} // namespace earwright::ui
