// Work away from the interface thread: one piece at a time, with progress, called off without waiting.
#pragma once

#include "core/engine/ThreadUrgency.h"

#include <QObject>
#include <QThreadPool>

#include <cstdint>
#include <functional>
#include <memory>
#include <stop_token>
#include <utility>

namespace earwright::ui {

/// Runs work, at low priority unless the user waits for it, and hands its outcome back to the interface
/// thread.
///
/// Threads: all methods on the interface thread; none waits, except the destructor, which calls the work off
///   and waits until it has noticed. Work that was called off or overtaken by a new start never reports, and
///   is not even begun where it had not yet.
class BackgroundJob : public QObject {
    Q_OBJECT
public:
    /// Share of the work done, 0 to 1.
    using Report = std::function<void(double)>;

    /// Usual for what is to be there at once, Patient for all else.
    explicit BackgroundJob(QObject* parent = nullptr, Urgency urgency = Urgency::Patient);
    ~BackgroundJob() override;

    /// Starts work; what runs already is called off. `work` runs on a thread of its own, `done` here.
    template <class Outcome>
    void start(std::function<Outcome(const std::stop_token&, const Report&)> work,
               std::function<void(Outcome)> done) {
        run([this, work = std::move(work), done = std::move(done)](const std::stop_token& stop,
                                                                   const Report& report, Hand hand) {
            auto outcome = std::make_shared<Outcome>(work(stop, report));
            hand([done, outcome] { done(std::move(*outcome)); });
        });
    }
    void cancel();
    bool isRunning() const { return running; }

signals:
    void progressed(double share);
    /// The work ended or was called off.
    void ended();

private:
    /// Hands a deed to the interface thread.
    using Hand = std::function<void(std::function<void()>)>;
    using Work = std::function<void(const std::stop_token&, const Report&, Hand)>;

    void run(Work work);
    void stopRunning();

    Urgency urgency;
    QThreadPool threads;
    std::stop_source stopSource;
    std::uint64_t generation = 0;
    bool running = false;
};

} // namespace earwright::ui
