// Where the sound goes: the device's name to choose another by, or a line about what is wrong with it.
#pragma once

#include "core/engine/DeviceReport.h"

#include <QWidget>

class QHBoxLayout;
class QLabel;

namespace earwright::ui {

class QuietButton;

/// In good order it is one quiet word; in trouble a sentence in brick with a flag, and two ways out: to try
/// again, and to see to the device.
class DeviceLine : public QWidget {
    Q_OBJECT
public:
    explicit DeviceLine(QWidget* parent = nullptr);

    void setReport(const DeviceReport& report);
    /// How a device is, in one line.
    static QString wording(const DeviceReport& report);

    QString text() const { return wording(shown); }
    QuietButton* tryAgainButton() const { return tryAgain; }
    QuietButton* panelButton() const { return choose; }

signals:
    void tryAgainRequested();
    /// The user wants to see to the device.
    void panelRequested();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    bool isTrouble() const;

    QLabel* line;
    QuietButton* tryAgain;
    QuietButton* choose;
    QHBoxLayout* row;
    DeviceReport shown;
};

} // namespace earwright::ui
