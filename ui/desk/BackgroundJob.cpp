#include "ui/desk/BackgroundJob.h"

#include <QMetaObject>

namespace earwright::ui {

BackgroundJob::BackgroundJob(QObject* parent, Urgency wanted) : QObject(parent), urgency(wanted) {
    // Two, so that a new start need not wait until the work called off has noticed.
    threads.setMaxThreadCount(2);
}

BackgroundJob::~BackgroundJob() {
    stopSource.request_stop();
    threads.waitForDone();
}

void BackgroundJob::run(Work work) {
    stopRunning();
    running = true;
    stopSource = std::stop_source();
    const std::uint64_t mine = generation;
    const auto inInterface = [this, mine](std::function<void()> deed) {
        QMetaObject::invokeMethod(
            this,
            [this, mine, act = std::move(deed)] {
                if (mine == generation) act();
            },
            Qt::QueuedConnection);
    };
    threads.start([this, work = std::move(work), stop = stopSource.get_token(), inInterface] {
        // Overtaken while the threads were still at what went before it.
        if (stop.stop_requested()) return;
        // Sound and the interface go first; a thread of the pool stays so.
        if (urgency != Urgency::Usual) setThreadUrgency(urgency);
        const Report report = [&](double share) { inInterface([this, share] { emit progressed(share); }); };
        work(stop, report, [&](std::function<void()> deed) {
            inInterface([this, act = std::move(deed)] {
                running = false;
                act();
                emit ended();
            });
        });
    });
}

void BackgroundJob::stopRunning() {
    stopSource.request_stop();
    ++generation;
    running = false;
}

void BackgroundJob::cancel() {
    if (!running) return;
    stopRunning();
    emit ended();
}

} // namespace earwright::ui
