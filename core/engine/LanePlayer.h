// The callback's side of the lanes: plays one, and fades over to the next when the worker has it ready.
#pragma once

#include "core/engine/Lane.h"
#include "core/time/SampleRate.h"

#include <array>
#include <atomic>
#include <cstdint>
#include <span>

namespace earwright {

/// Threads: order() and isSettled() by the worker; everything else by the callback.
/// Real time: nothing locks, waits or allocates.
class LanePlayer {
public:
    /// Most frames of one read().
    static constexpr std::size_t partFrames = 64;
    static constexpr double fadeSeconds = 0.01;

    /// Worker: play this lane from where the present one reaches its frame `atFrame` (at once, where it is
    /// past that or stands still). A lane that gets its turn late skips what it would have played. Requires:
    /// isSettled().
    void order(Lane* next, std::int64_t atFrame);
    /// Worker: the last order is carried out and the lane before it is free again.
    bool isSettled() const;

    /// Takes an order that is due. `moving`: sound is going on that has to be faded from.
    void takeOrder(bool moving, SampleRate rate);
    /// Reads what comes next; missing frames are silence. Returns how many there were. Requires: at most
    /// partFrames, canPlay().
    std::size_t read(std::span<SoundFrame> out);

    /// Something is there to play at this rate.
    bool canPlay(SampleRate rate) const { return active && active->rate() == rate; }
    bool isAtEnd() const { return active && active->ring().taken() >= active->endFrame(); }
    const Lane* lane() const { return active; }

private:
    void skipLateness(std::int64_t late);
    void fadeFromPrevious(std::span<SoundFrame> out);
    void letGo();

    std::atomic<Lane*> orderedLane{nullptr};
    std::atomic<std::int64_t> orderedAt{0};
    std::atomic<std::uint64_t> orders{0};
    std::atomic<std::uint64_t> carriedOut{0};

    Lane* active = nullptr;
    Lane* fading = nullptr;
    std::int64_t faded = 0;
    std::int64_t fadeFrames = 480;
    std::uint64_t taken = 0;
    std::array<SoundFrame, partFrames> previous{};
};

} // namespace earwright
