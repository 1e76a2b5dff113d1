#include "ui/transport/SignedStepper.h"

#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"

#include <QHBoxLayout>
#include <QWheelEvent>

#include <algorithm>
#include <cstdlib>

namespace earwright::ui {

SignedStepper::SignedStepper(const QString& name, int most, QWidget* parent)
    : QWidget(parent),
      limit(most),
      lower(new QuietButton(QStringLiteral("−"), this)),
      shown(new QuietButton(QString(), this)),
      higher(new QuietButton(QStringLiteral("+"), this)) {
    setAccessibleName(name);
    lower->setAccessibleName(tr("%1 down").arg(name));
    higher->setAccessibleName(tr("%1 up").arg(name));
    shown->setToolTip(tr("Back to 0"));
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
        if (number != 0) emit chosen(0);
    });
    // Wide enough for any number, so that the signs stay under the pointer.
    number = -limit;
    shown->setText(text());
    shown->setFixedWidth(shown->sizeHint().width());
    setValue(0);
}

void SignedStepper::setValue(int value) {
    number = std::clamp(value, -limit, limit);
    shown->setText(text());
    shown->setAccessibleName(tr("%1: %2").arg(accessibleName(), text()));
    lower->setEnabled(number > -limit);
    higher->setEnabled(number < limit);
}

QString SignedStepper::text() const {
    const QString sign = number > 0 ? QStringLiteral("+") : number < 0 ? QStringLiteral("−") : QString();
    return sign + QString::number(std::abs(number));
}

void SignedStepper::step(int by) {
    const int next = std::clamp(number + by, -limit, limit);
    if (next != number) emit chosen(next);
}

void SignedStepper::wheelEvent(QWheelEvent* event) {
    if (event->angleDelta().y() != 0) step(event->angleDelta().y() > 0 ? 1 : -1);
    event->accept();
}

} // namespace earwright::ui
