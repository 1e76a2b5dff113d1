#include "ui/desk/ListenedWork.h"

#include <chrono>
#include <cmath>

namespace earwright::ui {

namespace {

/// What is quicker than this needs no word.
constexpr std::chrono::milliseconds noticeable{600};

} // namespace

ListenedWork::ListenedWork(RecordingListener& ears, MessageBar& bar, QString name, QString words,
                           QObject* parent)
    : QObject(parent), listener(ears), messages(bar), subject(std::move(name)), about(std::move(words)) {
    notice.setSingleShot(true);
    notice.setInterval(noticeable);
    // On a busy machine the first share may be long in coming.
    connect(&notice, &QTimer::timeout, this, [this] {
        if (isBusy()) say();
    });
    connect(&job, &BackgroundJob::progressed, this, &ListenedWork::tell);
    connect(&job, &BackgroundJob::ended, this, [this] {
        messages.close(subject);
        emit ended();
    });
    connect(&listener, &RecordingListener::progressed, this, [this](double share) {
        if (waiting) tell(share);
    });
    connect(&listener, &RecordingListener::ready, this, [this] {
        if (const auto work = std::exchange(waiting, nullptr)) work();
    });
    connect(&listener, &RecordingListener::failed, this, [this](const QString& sentence) {
        if (!std::exchange(waiting, nullptr)) return;
        fail(sentence.toStdString());
    });
}

void ListenedWork::whenListened(std::function<void()> then) {
    messages.close(trouble());
    doneShare = 0;
    notice.start();
    if (listener.evidence()) return then();
    waiting = std::move(then);
    listener.listen();
}

void ListenedWork::tell(double share) {
    doneShare = share;
    if (!notice.isActive()) say();
}

void ListenedWork::say() {
    messages.say(subject, MessageBar::Tone::Question, about.arg(std::lround(doneShare * 100)),
                 {{tr("Cancel"), [this] {
                       cancel();
                       emit calledOff();
                   }}});
}

void ListenedWork::fail(const std::string& sentence) {
    messages.close(subject);
    messages.say(trouble(), MessageBar::Tone::Trouble, QString::fromStdString(sentence));
    emit failed();
}

void ListenedWork::cancel() {
    waiting = nullptr;
    job.cancel();
    messages.close(subject);
}

} // namespace earwright::ui
