#include "ui/theme/QuietButton.h"

#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"

#include <QPainter>

namespace earwright::ui {

namespace {

constexpr int underlineHeight = 2;
constexpr int underlineGap = 3;

} // namespace

QuietButton::QuietButton(const QString& text, QWidget* parent)
    : QAbstractButton(parent), sidePadding(spacing::small) {
    setText(text);
    setAccessibleName(text);
    setFocusPolicy(Qt::TabFocus);
    setCursor(Qt::PointingHandCursor);
    setAttribute(Qt::WA_Hover);
}

void QuietButton::setTextStyle(TextStyle chosen) {
    style = chosen;
    updateGeometry();
    update();
}

void QuietButton::setSidePadding(int pixels) {
    sidePadding = pixels;
    updateGeometry();
    update();
}

QFont QuietButton::wordFont(bool strong) const {
    QFont result = ui::font(style);
    if (strong) result.setWeight(QFont::DemiBold);
    return result;
}

QSize QuietButton::sizeHint() const {
    // Room for the bold word, so that nothing moves when the choice does.
    const QFontMetrics metrics(wordFont(true));
    return {metrics.horizontalAdvance(text()) + 2 * sidePadding,
            metrics.height() + 2 * (underlineGap + underlineHeight) + 2};
}

void QuietButton::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const bool hovered = isEnabled() && underMouse();
    painter.setFont(wordFont(isChecked()));
    painter.setPen(color(isEnabled() ? Role::Ink : Role::Muted));
    painter.drawText(rect(), Qt::AlignCenter, text());

    const int wordWidth = painter.fontMetrics().horizontalAdvance(text());
    const double left = (width() - wordWidth) / 2.0;
    const double bottom = height() / 2.0 + painter.fontMetrics().height() / 2.0 + underlineGap;
    if (isChecked() || hovered) {
        const double thickness = isChecked() ? underlineHeight : 1;
        painter.fillRect(QRectF(left, bottom, wordWidth, thickness),
                         color(isChecked() ? Role::Ink : Role::Muted));
    }
    if (hasFocus()) {
        painter.setPen(QPen(color(Role::Ink), 1, Qt::DotLine));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), spacing::tight,
                                spacing::tight);
    }
}

void QuietButton::enterEvent(QEnterEvent* event) {
    QAbstractButton::enterEvent(event);
    update();
}

void QuietButton::leaveEvent(QEvent* event) {
    QAbstractButton::leaveEvent(event);
    update();
}

} // namespace earwright::ui
