#include "ui/desk/BackgroundJob.h"

#include <QMetaObject>

#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

namespace earwright::ui {

namespace {

/// Sound and the interface go first. On Linux the nice value belongs to the thread, and may only be lowered
/// in urgency, so a pool's thread keeps it.
void stepBehindTheSound() {
    constexpr int politeness = 10;
    setpriority(PRIO_PROCESS, static_cast<id_t>(syscall(SYS_gettid)), politeness);
}

} // namespace

BackgroundJob::BackgroundJob(QObject* parent) : QObject(parent) {
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
        stepBehindTheSound();
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
