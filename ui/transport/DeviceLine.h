// What is wrong with the sound device, and the way to try it again.
#pragma once

#include "core/engine/DeviceReport.h"

#include <QWidget>

class QLabel;

namespace earwright::ui {

class QuietButton;

/// In good order it is not there; in trouble it is a sentence in brick behind a flag.
class DeviceLine : public QWidget {
    Q_OBJECT
public:
    explicit DeviceLine(QWidget* parent = nullptr);

    void setReport(const DeviceReport& report);
    /// How a device is, in one line.
    static QString wording(const DeviceReport& report);

    QString text() const { return wording(shown); }
    QuietButton* tryAgainButton() const { return tryAgain; }

signals:
    void tryAgainRequested();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    bool isTrouble() const;

    QLabel* line;
    QuietButton* tryAgain;
    DeviceReport shown;
};

} // namespace earwright::ui
