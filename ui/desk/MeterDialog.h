// Asks how beats are gathered into bars.
#pragma once

#include "core/music/Meter.h"

#include <QDialog>

class QComboBox;
class QSpinBox;

namespace earwright::ui {

class MeterDialog : public QDialog {
    Q_OBJECT
public:
    explicit MeterDialog(const Meter& meter, QWidget* parent = nullptr);
    Meter meter() const;

private:
    QSpinBox* beats;
    QComboBox* unit;
};

} // namespace earwright::ui
