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

/// Threads: order(), withdraw(), waiting() and isSettled() by the worker; everything else by the callback.
/// Real time: nothing locks, waits or allocates.
class LanePlayer {
public:
    /// Most frames of one read().
    static constexpr std::size_t partFrames = 64;
    /// A lane that begins before its time, as at a seam, takes LoopSeam::fadeSeconds instead.
    static constexpr double fadeSeconds = 0.01;

    /// When an order is carried out.
    enum class Turn {
        Soon,  ///< where the present lane reaches a frame; at once where it is past that or stands still
        Exact, ///< there to the frame, and not before
    };
    static constexpr std::uint64_t mostWaiting = 2;
    /// Worker: play this lane from where the one before, which plays or was ordered last, reaches its frame
    /// `atFrame`. A lane that gets its turn late skips what it would have played. Requires: waiting() <
    /// mostWaiting.
    void order(Lane* next, std::int64_t atFrame, Turn turn = Turn::Soon);
    /// Worker: takes the last order back. False where its turn has come already.
    bool withdraw();
    /// Worker: orders that are not carried out yet; once one is, the lane before it is free again.
    std::uint64_t waiting() const { return ordered - carriedOut.load(std::memory_order_acquire); }
    bool isSettled() const { return waiting() == 0; }

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
        /// Twice the order's own number, and one more as long as it waits. Whoever turns the one into a
        /// nought, worker or callback, has the lane.
        std::atomic<std::uint64_t> state{0};
        bool isWaiting() const { return state.load(std::memory_order_acquire) % 2 != 0; }
    };
    Order& orderAfter(std::uint64_t before) { return orders[before % orders.size()]; }
    const Order& orderAfter(std::uint64_t before) const { return orders[before % orders.size()]; }
    void skipLateness(const Lane& before, std::int64_t late);
    void fadeFromPrevious(std::span<SoundFrame> out);
    void letGo();

    /// Each in the place of how many were carried out before it; one more than may wait is in use.
    std::array<Order, mostWaiting + 1> orders;
    std::atomic<std::uint64_t> carriedOut{0};
    /// Worker: orders given, but for those taken back; and all of them.
    std::uint64_t ordered = 0;
    std::uint64_t numbered = 0;

    /// Callback.
    Lane* active = nullptr;
    Lane* fading = nullptr;
    std::int64_t faded = 0;
    std::int64_t fadeFrames = 480;
    /// Orders whose turn has come.
    std::uint64_t taken = 0;
    std::array<SoundFrame, partFrames> previous{};
};

} // namespace earwright
