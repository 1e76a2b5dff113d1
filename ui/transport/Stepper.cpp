#include "ui/transport/Stepper.h"

#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"

#include <QHBoxLayout>
#include <QWheelEvent>

#include <algorithm>
#include <utility>

namespace earwright::ui {

Stepper::Stepper(const QString& name, Scale given, QWidget* parent)
    : QWidget(parent),
      scale(std::move(given)),
      lower(new QuietButton(QStringLiteral("−"), this)),
      shown(new QuietButton(QString(), this)),
      higher(new QuietButton(QStringLiteral("+"), this)) {
    setAccessibleName(name);
    lower->setAccessibleName(tr("%1 down").arg(name));
    higher->setAccessibleName(tr("%1 up").arg(name));
    shown->setToolTip(scale.restTip);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    for (QuietButton* button : {lower, shown, higher}) {
        button->setSidePadding(spacing::tight);
        row->addWidget(button);
    }
    lower->setAutoRepeat(true);
    higher->setAutoRepeat(true);
    connect(lower, &QAbstractButton::clicked, this, [this] { step(-1); });
    connect(higher, &QAbstractButton::clicked, this, [this] { step(1); });
    connect(shown, &QAbstractButton::clicked, this, [this] {
        if (number != scale.rest) emit chosen(scale.rest);
    });
    // Wide enough for any value, so that the signs stay under the pointer.
    int widest = 0;
    for (int value = scale.lowest; value <= scale.highest; ++value) {
        shown->setText(scale.wording(value));
        widest = std::max(widest, shown->sizeHint().width());
    }
    shown->setFixedWidth(widest);
    setValue(scale.rest);
}

void Stepper::setValue(int value) {
    number = std::clamp(value, scale.lowest, scale.highest);
    shown->setText(text());
    shown->setAccessibleName(tr("%1: %2").arg(accessibleName(), text()));
    lower->setEnabled(number > scale.lowest);
    higher->setEnabled(number < scale.highest);
}

void Stepper::step(int by) {
    const int next = std::clamp(number + by, scale.lowest, scale.highest);
    if (next != number) emit chosen(next);
}

void Stepper::wheelEvent(QWheelEvent* event) {
    if (const int notches = wheel.take(event->angleDelta().y()); notches != 0) step(notches);
    event->accept();
}

} // namespace earwright::ui
