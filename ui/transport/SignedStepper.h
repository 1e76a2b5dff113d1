// A number with its sign, between two signs that step it.
#pragma once

#include "ui/transport/Stepper.h"

namespace earwright::ui {

/// "−  +2  +". A click on the number itself sets it back to 0.
class SignedStepper : public Stepper {
    Q_OBJECT
public:
    /// Limit: both ways.
    SignedStepper(const QString& name, int limit, QWidget* parent = nullptr);
    /// From `lowest`, below 0, to `highest`.
    SignedStepper(const QString& name, int lowest, int highest, QWidget* parent = nullptr);

    /// "+2", "−3", "0".
    static QString signedText(int number);
};

} // namespace earwright::ui
