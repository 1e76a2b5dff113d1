// The thread between the user's wishes and the callback.
#pragma once

#include "core/engine/LaneWork.h"
#include "core/engine/Mixer.h"
#include "core/engine/Wanted.h"

#include <chrono>
#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <thread>
#include <vector>

namespace earwright {

/// Takes messages and does the work on the lanes.
///
/// Threads: post() by the thread that owns the engine; the rest is its own thread, the only caller of the
///   stretcher.
/// Real time: it shall keep ahead of the callback by Mixer::keptAhead(), but nobody waits for it.
class EngineWorker {
public:
    explicit EngineWorker(std::shared_ptr<Mixer> mixer);
    ~EngineWorker();
    EngineWorker(const EngineWorker&) = delete;
    EngineWorker& operator=(const EngineWorker&) = delete;

    using Message = std::function<void(Wanted&)>;
    void post(Message message);

private:
    void run(const std::stop_token& stop);
    void takeMessages(std::chrono::microseconds patience);

    std::shared_ptr<Mixer> mixer;
    std::mutex guard;
    std::condition_variable arrived;
    /// Guarded by `guard`, which is held only to put in and to take out.
    std::vector<Message> messages;

    LaneWork work;
    std::jthread thread;
};

} // namespace earwright
