// The thread between the user's wishes and the callback: owns the lanes and keeps them filled.
#pragma once

#include "core/engine/Engine.h"
#include "core/engine/Lane.h"
#include "core/engine/Mixer.h"

#include <array>
#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

namespace earwright {

/// What the user wants to hear; changed by messages only.
struct Wanted {
    std::shared_ptr<Recording> recording;
    std::optional<Range<Frames>> loop;
    /// Played once instead of the loop.
    std::optional<Range<Frames>> slice;
    Playing playing;
    double tuning = 0;
    NoteList notes = noteListOf({});
    /// Where to go next; nothing goes on from where the sound is.
    std::optional<Frames> jump;
    std::uint64_t wish = 0;
    /// Something changed that a new lane has to take up.
    bool changed = false;
    /// Passes of the loop are counted anew.
    bool restartPasses = false;
    /// The user pressed play, which ends a slice.
    bool pressedPlay = false;
};

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
    void noticeEnd();
    void noticeRate();
    void startLane();
    void prime(Lane& lane, std::int64_t switchAt) const;
    Lane::Start nextStart(std::int64_t& switchAt);
    void goOnFrom(Lane::Start& start, std::int64_t& switchAt) const;
    Lane& spareLane() { return lanes[active == &lanes[0] ? 1 : 0]; }

    std::shared_ptr<Mixer> mixer;
    std::mutex guard;
    std::condition_variable arrived;
    /// Guarded by `guard`, which is held only to put in and to take out.
    std::vector<Message> messages;

    Wanted wanted;
    std::array<Lane, 2> lanes;
    Lane* active = nullptr;
    bool endNoticed = false;
    std::jthread thread;
};

} // namespace earwright
