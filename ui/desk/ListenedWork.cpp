#include "ui/desk/ListenedWork.h"

#include <cmath>

namespace earwright::ui {

namespace {

/// What is quicker than this needs no word; milliseconds.
constexpr qint64 noticeable = 600;

} // namespace

ListenedWork::ListenedWork(RecordingListener& ears, MessageBar& bar, QString name, QString words,
                           QObject* parent)
    : QObject(parent), listener(ears), messages(bar), subject(std::move(name)), about(std::move(words)) {
    connect(&job, &BackgroundJob::progressed, this, &ListenedWork::say);
    connect(&job, &BackgroundJob::ended, this, [this] {
        messages.close(subject);
        emit ended();
    });
    connect(&listener, &RecordingListener::progressed, this, [this](double share) {
        if (waiting) say(share);
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
    sinceAsked.start();
    if (listener.evidence()) return then();
    waiting = std::move(then);
    listener.listen();
}

void ListenedWork::say(double share) {
    if (sinceAsked.elapsed() < noticeable) return;
    messages.say(subject, MessageBar::Tone::Question, about.arg(std::lround(share * 100)),
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
