// What tuning the record has, and a word that plays it at the reference A.
#pragma once

#include "ui/theme/WheelNotches.h"
#include "ui/transport/TuningShift.h"

#include <QWidget>

#include <optional>

class QLabel;

namespace earwright::ui {

class QuietButton;

/// "12 cents flat   − play at 440 +"; once it is: "raised by 12 cents". A record that drifts: "12 cents flat,
/// drifts by 30".
/// Units: cents, A4 = 440 Hz is 0.
class TuningLine : public QWidget {
    Q_OBJECT
public:
    explicit TuningLine(QWidget* parent = nullptr);

    /// How far the record is above concert pitch; nothing while it is not known.
    /// `driftCents`: from the lowest to the highest, where the record does not keep its tuning.
    void setTuning(std::optional<double> cents, double driftCents = 0);
    void setReference(const ReferenceA& reference);
    /// How far the pitch is moved now, to tell whether the record is at the reference.
    void setCents(int cents);

    QString text() const;
    /// The record's A is the reference now.
    bool isInTune() const;
    QuietButton* playAtButton() const { return playAt; }
    QuietButton* lowerButton() const { return lower; }
    QuietButton* higherButton() const { return higher; }

signals:
    /// The record is to be moved to the reference, or back to where it was made.
    void inTuneChosen(bool inTune);
    void referenceChosen(const earwright::ui::ReferenceA& reference);

protected:
    void wheelEvent(QWheelEvent* event) override;

private:
    void show();
    bool drifts() const;
    void stepReference(int by);
    std::optional<TuningShift> shift() const;

    std::optional<double> record;
    double drift = 0;
    ReferenceA reference;
    int inUse = 0;
    QLabel* line;
    QuietButton* lower;
    QuietButton* playAt;
    QuietButton* higher;
    WheelNotches wheel;
};

} // namespace earwright::ui
