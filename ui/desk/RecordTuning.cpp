#include "ui/desk/RecordTuning.h"

#include "core/check/AsWritten.h"
#include "core/result/Result.h"

namespace earwright::ui {

RecordTuning::RecordTuning(DeskSession& desk, RecordingListener& recordingListener, TuningDesk& desksTuning,
                           QObject* parent)
    : QObject(parent), session(desk), listener(recordingListener), tuning(desksTuning) {
    connect(&listener, &RecordingListener::ready, this, &RecordTuning::readAsWritten);
    connect(&session, &DeskSession::recordingChanged, &job, &BackgroundJob::cancel);
    connect(&session, &DeskSession::studyChanged, this, [this](const Study& before) {
        if (before.notes != session.study().notes) readAsWritten();
    });
}

void RecordTuning::tell(const RecordingEvidence& evidence) {
    const double cents = evidence.tuningCurve().cents();
    if (tuning.record() != cents) tuning.setRecord(cents, evidence.tuningCurve().reach());
}

void RecordTuning::readAsWritten() {
    const auto evidence = listener.evidence();
    if (!evidence || !session.isOpen()) return;
    if (!tellsItsReading(session.study())) {
        job.cancel();
        return tell(*evidence);
    }
    // Nothing is said before: what the record alone reads may be taken back at once.
    job.start<Result<RecordingEvidence>>(
        [evidence, study = session.shared()](const std::stop_token& stop, const BackgroundJob::Report&) {
            return asWritten(*study, *evidence, stop);
        },
        [this, evidence](const Result<RecordingEvidence>& read) { tell(read ? *read : *evidence); });
}

} // namespace earwright::ui
