// The callback's side of the lanes: plays one, and fades over to the next when the worker has it ready.
#pragma once

#include "core/engine/Lane.h"
#include "core/engine/LoopSeam.h"
#include "core/time/SampleRate.h"

#include <array>
#include <atomic>
#include <cstdint>
#include <span>

namespace earwright {

/// Threads: order(), withdraw() and isSettled() by the worker; everything else by the callback.
/// Real time: nothing locks, waits or allocates.
class LanePlayer {
public:
    /// Most frames of one read().
    static constexpr std::size_t partFrames = 64;
    static constexpr double fadeSeconds = 0.01;
    /// At a seam, where two different sounds meet as a rule.
    static constexpr double seamFadeSeconds = LoopSeam::fadeSeconds;

    /// When an order is carried out.
    enum class Turn {
        Soon,  ///< where the present lane reaches a frame; at once where it is past that or stands still
        Exact, ///< there to the frame, and not before
    };
    /// Worker: play this lane from where the present one reaches its frame `atFrame`. A lane that gets its
    /// turn late skips what it would have played. Requires: isSettled().
    void order(Lane* next, std::int64_t atFrame, Turn turn = Turn::Soon);
    /// Worker: takes the last order back. False where it is carried out already, or was.
    bool withdraw();
    /// Worker: the last order is carried out and the lane before it is free again, or it was taken back.
    bool isSettled() const;

    /// Takes an order that is due. `moving`: sound is going on that has to be faded from.
    void takeOrder(bool moving, SampleRate rate);
    /// Frames until lanes change or have changed, or until the present one runs dry; read no more at a time.
    /// At least 1.
    std::int64_t framesToNextChange() const;
    /// Reads what comes next; missing frames are silence. Returns how many there were. Requires: at most
    /// partFrames, canPlay().
    std::size_t read(std::span<SoundFrame> out);

    /// Something is there to play at this rate.
    bool canPlay(SampleRate rate) const { return active && active->rate() == rate; }
    bool isAtEnd() const { return active && active->ring().taken() >= active->endFrame(); }
    const Lane* lane() const { return active; }
    /// The lane that counts as heard: the one before, while its successor is only being faded in.
    const Lane* heardLane() const {
        return fading && active->ring().taken() < active->ownFrom() ? fading : active;
    }

private:
    struct Order {
        std::atomic<Lane*> lane{nullptr};
        std::atomic<std::int64_t> at{0};
        std::atomic<Turn> turn{Turn::Soon};
    };
    const Order& orderOf(std::uint64_t ticket) const { return orders[ticket % 2]; }
    void skipLateness(const Lane& before, std::int64_t late);
    void fadeFromPrevious(std::span<SoundFrame> out);
    void letGo();

    std::array<Order, 2> orders;
    /// Ticket of the last order, times two, plus one as long as it waits. Whoever turns the one into a
    /// nought, worker or callback, has the lane.
    std::atomic<std::uint64_t> lastOrder{0};
    std::atomic<std::uint64_t> carriedOut{0};
    /// Worker: the ticket that has to be carried out until all is settled.
    std::uint64_t awaited = 0;

    Lane* active = nullptr;
    Lane* fading = nullptr;
    std::int64_t faded = 0;
    std::int64_t fadeFrames = 480;
    std::uint64_t taken = 0;
    std::array<SoundFrame, partFrames> previous{};
};

} // namespace earwright
