// Where the sound goes: the device's name to choose another by, or a line about what is wrong with it.
#pragma once

#include "core/engine/Engine.h"

#include <QWidget>

#include <vector>

class QHBoxLayout;
class QLabel;

namespace earwright::ui {

class QuietButton;

/// In good order it is one quiet word; in trouble a sentence in brick with a flag, and two ways out.
class DeviceLine : public QWidget {
    Q_OBJECT
public:
    explicit DeviceLine(QWidget* parent = nullptr);

    void setReport(const DeviceReport& report);
    /// Answer to choicesRequested().
    void offer(const std::vector<DeviceChoice>& choices);

    QString text() const;
    QuietButton* tryAgainButton() const { return tryAgain; }
    QuietButton* chooseButton() const { return choose; }

signals:
    void tryAgainRequested();
    /// The list of devices is wanted now, for offer().
    void choicesRequested();
    void deviceChosen(int index);

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
