// Plays a mark into the output when asked, and tells in which output frame it began.
#pragma once

#include "core/engine/Mark.h"
#include "core/time/Frames.h"
#include "core/time/SampleRate.h"

#include <algorithm>
#include <atomic>
#include <cstdint>
#include <optional>
#include <span>

namespace earwright {

/// Threads: add() by the output's callback; order() and begun() by one other.
/// Real time: everything.
class MarkPlayer {
public:
    /// One mark, from the next block on. Requires: the one before has begun.
    void order() { ordered.fetch_add(1, std::memory_order_release); }
    /// Where the mark ordered last began; nothing until it has.
    std::optional<OutputFrames> begun() const {
        if (carriedOut.load(std::memory_order_acquire) != ordered.load(std::memory_order_relaxed))
            return std::nullopt;
        return OutputFrames(beganAt.load(std::memory_order_relaxed));
    }
    /// Adds what is due; `first` is the output frame of the first sample.
    void add(std::span<float> mono, OutputFrames first, SampleRate rate) {
        const unsigned wanted = ordered.load(std::memory_order_acquire);
        if (wanted != carriedOut.load(std::memory_order_relaxed)) {
            next = 0;
            beganAt.store(first.value, std::memory_order_relaxed);
            carriedOut.store(wanted, std::memory_order_release);
        }
        if (next >= Mark::frames(rate)) return;
        for (float& sample : mono)
            sample += Mark::sampleAt(next++, rate);
    }

private:
    std::atomic<unsigned> ordered{0};
    std::atomic<unsigned> carriedOut{0};
    std::atomic<std::int64_t> beganAt{0};
    std::size_t next = SIZE_MAX / 2;
};

} // namespace earwright
