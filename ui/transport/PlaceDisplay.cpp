#include "ui/transport/PlaceDisplay.h"

#include "ui/theme/PlaceText.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QPainter>

#include <cmath>

namespace earwright::ui {

PlaceDisplay::PlaceDisplay(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Where the ear is"));
    showPlace({}, Seconds(0), Seconds(0));
    showSpeed(1);
}

void PlaceDisplay::showPlace(const QString& barAndBeat, Seconds now, Seconds length) {
    const QString time = clockText(now);
    const QString newLarge = barAndBeat.isEmpty() ? time : barAndBeat;
    const QString newClock = barAndBeat.isEmpty() ? tr("of %1").arg(lengthText(length))
                                                  : tr("%1 of %2").arg(time, lengthText(length));
    if (newLarge == large && newClock == clock) return;
    large = newLarge;
    clock = newClock;
    update();
}

void PlaceDisplay::showSpeed(double speed) {
    const long percent = std::lround(speed * 100);
    speedText = percent == 100 ? QString() : tr("%1 %").arg(percent);
    update();
}

QString PlaceDisplay::smallText() const {
    return speedText.isEmpty() ? clock : tr("%1 · %2").arg(clock, speedText);
}

QSize PlaceDisplay::sizeHint() const {
    const QFontMetrics place(ui::font(TextStyle::Place));
    const QFontMetrics small(ui::font(TextStyle::Small));
    return {place.horizontalAdvance(tr("bar 888, beat 8⅔")), place.height() + spacing::hair + small.height()};
}

void PlaceDisplay::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const QFontMetrics place(ui::font(TextStyle::Place));
    const QFontMetrics small(ui::font(TextStyle::Small));
    const int top = (height() - place.height() - spacing::hair - small.height()) / 2;
    painter.setFont(ui::font(TextStyle::Place));
    painter.setPen(color(Role::Ink));
    painter.drawText(0, top + place.ascent(), large);
    painter.setFont(ui::font(TextStyle::Small));
    painter.setPen(color(Role::Muted));
    painter.drawText(0, top + place.height() + spacing::hair + small.ascent(), smallText());
}

} // namespace earwright::ui
