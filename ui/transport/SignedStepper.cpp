#include "ui/transport/SignedStepper.h"

#include <cstdlib>

namespace earwright::ui {

SignedStepper::SignedStepper(const QString& name, int limit, QWidget* parent)
    : SignedStepper(name, -limit, limit, parent) {}

SignedStepper::SignedStepper(const QString& name, int lowest, int highest, QWidget* parent)
    : Stepper(name, {lowest, highest, 0, &SignedStepper::signedText, tr("Back to 0")}, parent) {}

QString SignedStepper::signedText(int number) {
    const QString sign = number > 0 ? QStringLiteral("+") : number < 0 ? QStringLiteral("−") : QString();
    return sign + QString::number(std::abs(number));
}

} // namespace earwright::ui
