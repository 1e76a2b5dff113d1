// Tells the desk's tuning how the record is tuned, as what is written reads it.
#pragma once

#include "core/listening/RecordingEvidence.h"
#include "ui/desk/BackgroundJob.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/RecordingListener.h"
#include "ui/desk/TuningDesk.h"

#include <QObject>

#include <memory>

namespace earwright::ui {

/// Midway between two semitones a record can be read either way (asWritten). The written notes are to sound
/// with the record, so that its tuning follows them as they are written. One reading is told, once it is
/// known.
/// Threads: interface only; listens beside it.
class RecordTuning : public QObject {
    Q_OBJECT
public:
    /// Requires: all outlive this.
    RecordTuning(DeskSession& session, RecordingListener& listener, TuningDesk& tuning,
                 QObject* parent = nullptr);

private:
    void tell(const RecordingEvidence& evidence);
    void readAsWritten();

    DeskSession& session;
    RecordingListener& listener;
    TuningDesk& tuning;
    BackgroundJob job;
};

} // namespace earwright::ui
