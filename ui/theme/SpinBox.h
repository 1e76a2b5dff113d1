// A field for a whole number.
#pragma once

#include <QString>

class QSpinBox;

namespace earwright::ui {

/// From `least` to `most`, both included. `name` is what a screen reader says. Ownership: the caller's, until
/// it goes into a layout.
QSpinBox* spinBox(int least, int most, int value, const QString& name);

} // namespace earwright::ui
