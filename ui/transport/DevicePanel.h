// Where the sound goes and how safely: the device, its rate and latency, and how it has gone so far.
#pragma once

#include "core/engine/DeviceReport.h"

#include <QDialog>

#include <vector>

class QComboBox;
class QFormLayout;
class QLabel;
class QListWidget;
class QListWidgetItem;
class QPushButton;

namespace earwright::ui {

/// Stays open beside the music: every choice is carried out at once, so that it can be heard. What it shows
/// follows the set functions only.
///
/// Threads: interface only.
class DevicePanel : public QDialog {
    Q_OBJECT
public:
    explicit DevicePanel(QWidget* parent = nullptr);

    /// What there is to choose from. The place of the keyboard in the list stays while the list is the same.
    void setDevices(const std::vector<DeviceChoice>& devices);
    /// What was wished for last.
    void setWish(const DeviceWish& wish);
    void setReport(const DeviceReport& report);

    /// Without a name: the system's choice.
    QListWidget* deviceList() const { return list; }
    QComboBox* rateBox() const { return rates; }
    QComboBox* latencyBox() const { return latencies; }
    QPushButton* tryAgainButton() const { return again; }
    QString stateText() const;
    QString grantedText() const;
    QString keptText() const;
    QString gapsText() const;
    /// Empty where nothing had to grow.
    QString growthText() const;

signals:
    /// A choice, or the same once more.
    void wished(const earwright::DeviceWish& wish);

private:
    void build();
    QLabel* addFigure(QFormLayout& form, const QString& caption);
    void fillList();
    void fillRates();
    void fillLatencies();
    /// `movesThere`: the keyboard goes to the chosen one.
    void markChosen(bool movesThere);
    void take(const QListWidgetItem* item);
    const DeviceChoice* chosenDevice() const;

    std::vector<DeviceChoice> choices;
    DeviceWish chosen;
    QListWidget* list;
    QComboBox* rates;
    QComboBox* latencies;
    QLabel* state;
    QLabel* granted;
    QLabel* kept;
    QLabel* gaps;
    QLabel* growth;
    QPushButton* again;
};

} // namespace earwright::ui
