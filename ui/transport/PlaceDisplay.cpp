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
    if (newLarge != large) setAccessibleDescription(stage.isEmpty() ? newLarge : stage);
    large = newLarge;
    clock = newClock;
    update();
}

void PlaceDisplay::showSpeed(double speed) {
    const long percent = std::lround(speed * 100);
    const QString now = percent == 100 ? QString() : tr("%1 %").arg(percent);
    if (now == speedText) return;
    speedText = now;
    update();
}

void PlaceDisplay::showStage(const QString& words) {
    if (words == stage) return;
    stage = words;
    setAccessibleDescription(largeText());
    update();
}

void PlaceDisplay::showHeld(bool now) {
    if (now == held) return;
    held = now;
    update();
}

QString PlaceDisplay::smallText() const {
    QString text = clock;
    if (!speedText.isEmpty()) text = tr("%1 · %2").arg(text, speedText);
    return held ? tr("%1 · held").arg(text) : text;
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
    // Words longer than a bar and its beat are set smaller rather than cut off.
    QFont lettering = ui::font(TextStyle::Place);
    if (const int wide = place.horizontalAdvance(largeText()); wide > width())
        lettering.setPixelSize(lettering.pixelSize() * width() / wide);
    painter.setFont(lettering);
    painter.setPen(color(Role::Ink));
    painter.drawText(0, top + place.ascent(), largeText());
    painter.setFont(ui::font(TextStyle::Small));
    painter.setPen(color(Role::Muted));
    painter.drawText(0, top + place.height() + spacing::hair + small.ascent(), smallText());
}

} // namespace earwright::ui
