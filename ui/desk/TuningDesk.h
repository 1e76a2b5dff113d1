// The record's tuning at the desk: the written notes follow it, and one word plays it at the reference A.
#pragma once

#include "ui/desk/DeskSession.h"
#include "ui/transport/TuningShift.h"

#include <QObject>

#include <optional>

class QSettings;

namespace earwright::ui {

/// The reference is the user's and is kept from study to study.
/// Threads: interface only.
class TuningDesk : public QObject {
    Q_OBJECT
public:
    /// Requires: settings outlives this.
    TuningDesk(DeskSession& session, QSettings& settings, QObject* parent = nullptr);

    /// Cents by which the record's own A lies above 440 Hz; nothing while that is not known.
    /// `driftCents`: how far it moves in the course of the record.
    void setRecord(std::optional<double> cents, double driftCents = 0);
    double drift() const { return driftCents; }
    std::optional<double> record() const { return cents; }
    const ReferenceA& reference() const { return a; }
    /// A record played at the reference before goes to the new one.
    void choose(const ReferenceA& reference);

    /// The record is known to lie elsewhere than at the reference.
    bool canMove() const;
    bool isInTune() const;
    /// Moves the record to the reference, or back to where it was made.
    void playInTune(bool inTune);

    /// Cents above 440 Hz of the A that who plays along with the record as it is played now is tuned to; the
    /// reference A where the record's own is not known.
    double instrumentA() const;
    /// Semitones by which the record is played higher than it was made, without what brings it to the
    /// reference.
    int transposed() const;

signals:
    void changed();

private:
    DeskSession& session;
    QSettings& settings;
    std::optional<double> cents;
    double driftCents = 0;
    ReferenceA a;
};

} // namespace earwright::ui
