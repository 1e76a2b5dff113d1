// The input callback's whole work: stamps what comes in, keeps it where it is wanted, and shows its level.
#pragma once

#include "core/engine/InputBlock.h"
#include "core/engine/MonitorTap.h"
#include "core/engine/SpscRing.h"
#include "core/engine/StreamClock.h"
#include "core/time/Frames.h"
#include "core/time/SampleRate.h"

#include <atomic>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <utility>

namespace earwright {

/// Which of a stereo input's channels is kept and heard.
enum class InputChannels { Both, First, Second };

/// Threads: take() by the input's callback; blocks() is read by one other thread; the rest by any.
/// Real time: take() neither allocates, locks, waits, throws nor logs.
class Capture {
public:
    explicit Capture(std::shared_ptr<MonitorTap> monitor) : kept(4096), monitoring(std::move(monitor)) {}

    /// What came in. `capturedNanoseconds`: when its first frame entered the device, on the steady clock.
    /// `newStream`: the first call of another stream. Requires: channels is 1 or 2.
    void take(std::span<const float> interleaved, int channels, SampleRate rate,
              std::int64_t capturedNanoseconds, bool newStream);
    void choose(InputChannels channels) { chosen.store(channels, std::memory_order_relaxed); }
    /// While someone keeps it, blocks arrive; a reader that is 5 s late loses some.
    void setKeeping(bool keeping) { isKept.store(keeping, std::memory_order_release); }
    SpscRing<InputBlock>& blocks() { return kept; }
    /// When an input frame entered the device, on the steady clock.
    std::optional<std::int64_t> timeOf(InputFrames frame) const { return clock.timeOf(frame.value); }

    MonitorTap& monitor() { return *monitoring; }
    /// Highest absolute sample since the last call; 1 is full scale.
    float takePeak() { return peak.exchange(0.0f, std::memory_order_relaxed); }
    /// Samples at full scale so far, over all streams.
    std::int64_t clippedSamples() const { return clipped.load(std::memory_order_relaxed); }
    std::int64_t framesTaken() const { return counted.load(std::memory_order_relaxed); }

private:
    void keep(std::span<const float> interleaved, int channels, int rateHertz);
    void countLost(std::int64_t capturedNanoseconds, int rateHertz);
    void measure(const InputBlock& block);

    std::atomic<InputChannels> chosen{InputChannels::Both};
    std::atomic<bool> isKept{false};
    std::atomic<float> peak{0};
    std::atomic<std::int64_t> clipped{0};
    std::atomic<std::int64_t> counted{0};
    SpscRing<InputBlock> kept;
    std::shared_ptr<MonitorTap> monitoring;
    StreamClock clock;
    std::int64_t next = 0;
    std::int64_t stream = 0;
};

} // namespace earwright
