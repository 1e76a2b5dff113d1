// Work in the background that needs the recording to have been listened to first.
#pragma once

#include "ui/desk/BackgroundJob.h"
#include "ui/desk/MessageBar.h"
#include "ui/desk/RecordingListener.h"

#include <QObject>
#include <QTimer>

#include <functional>
#include <memory>
#include <utility>

namespace earwright::ui {

/// Listens if need be, then works, both with progress and a way to call them off; trouble is told as a
/// message. What is started anew takes the place of what was under way. Threads: interface only.
class ListenedWork : public QObject {
    Q_OBJECT
public:
    /// `about` says what goes on, with %1 for the share done in per cent; `subject` names its messages.
    ListenedWork(RecordingListener& listener, MessageBar& messages, QString subject, QString about,
                 QObject* parent = nullptr);

    /// `work` runs on a thread of its own, `done` here, unless it was called off or failed.
    template <class Outcome>
    void start(std::function<Result<Outcome>(const RecordingEvidence&, const std::stop_token&,
                                             const BackgroundJob::Report&)>
                   work,
               std::function<void(Outcome)> done) {
        whenListened([this, work = std::move(work), done = std::move(done)] {
            run<Outcome>(std::move(work), std::move(done));
        });
    }
    /// Both in steps of their own, for work that begins with what is there once the recording was listened
    /// to: `then` is called here, at once if that has been done.
    void whenListened(std::function<void()> then);
    /// Requires: within whenListened().
    template <class Outcome>
    void run(std::function<Result<Outcome>(const RecordingEvidence&, const std::stop_token&,
                                           const BackgroundJob::Report&)>
                 work,
             std::function<void(Outcome)> done) {
        job.start<Result<Outcome>>(
            [work = std::move(work), evidence = listener.evidence()](const std::stop_token& stop,
                                                                     const BackgroundJob::Report& report) {
                return work(*evidence, stop, report);
            },
            [this, done = std::move(done)](Result<Outcome> outcome) {
                outcome ? done(*std::move(outcome)) : fail(describe(outcome.error()));
            });
    }
    void cancel();
    bool isBusy() const { return waiting || job.isRunning(); }

signals:
    void failed();
    /// The work ended or was called off; not where listening did not come to an end.
    void ended();
    /// The user called it off.
    void calledOff();

private:
    /// Once it is worth a word.
    void tell(double share);
    void say();
    void fail(const std::string& sentence);
    /// A subject of its own: what tells of the work is closed with it.
    QString trouble() const { return subject + QStringLiteral(" trouble"); }

    RecordingListener& listener;
    MessageBar& messages;
    QString subject;
    QString about;
    /// What starts once the recording was listened to.
    std::function<void()> waiting;
    QTimer notice;
    /// 0 to 1.
    double doneShare = 0;
    BackgroundJob job;
};

} // namespace earwright::ui
