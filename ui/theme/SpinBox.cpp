#include "ui/theme/SpinBox.h"

#include <QSpinBox>

namespace earwright::ui {

QSpinBox* spinBox(int least, int most, int value, const QString& name) {
    auto* box = new QSpinBox;
    box->setRange(least, most);
    box->setValue(value);
    box->setAccessibleName(name);
    return box;
}

} // namespace earwright::ui
