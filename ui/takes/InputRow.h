// Which input, how loud, heard or not, and how well takes line up.
#pragma once

#include "core/engine/Input.h"

#include <QWidget>

#include <optional>
#include <vector>

class QLabel;
class QSlider;

namespace earwright::ui {

class LevelMeter;
class QuietButton;

/// Shows how the input is and asks for changes; what it shows follows the set functions only.
/// Threads: interface only.
class InputRow : public QWidget {
    Q_OBJECT
public:
    explicit InputRow(QWidget* parent = nullptr);

    void setReport(const InputReport& report);
    void setLevel(const InputLevel& level);
    void setRoundTrip(const RoundTripReport& trip);
    void setMonitored(bool heard);
    /// Answer to choicesRequested(); `channels` as wished for now.
    void offer(const std::vector<InputChoice>& choices, InputChannels channels);

    LevelMeter* meter() const { return level; }
    QuietButton* inputButton() const { return choose; }
    QuietButton* measureButton() const { return measure; }
    QuietButton* monitorButton() const { return monitor; }
    QSlider* monitorSlider() const { return monitorLevel; }
    QString alignment() const;
    QString state() const;

signals:
    /// Open what was chosen last, or close it.
    void openRequested();
    void closeRequested();
    void choicesRequested();
    void inputChosen(const QString& name);
    void channelsChosen(earwright::InputChannels channels);
    void measureRequested();
    void monitorChosen(bool heard);
    /// Linear, 0 to 1.
    void monitorLevelChosen(double level);

private:
    void connectParts();
    bool isOpen() const { return shown.state == DeviceState::Running; }

    InputReport shown;
    QuietButton* choose;
    QLabel* trouble;
    LevelMeter* level;
    QuietButton* monitor;
    QSlider* monitorLevel;
    QLabel* aligned;
    QuietButton* measure;
};

} // namespace earwright::ui
