// Who renders: the device's callback while its stream is on, a silent clock otherwise, and never both.
#pragma once

#include "core/engine/GapWatch.h"
#include "core/engine/Mixer.h"
#include "core/engine/OutputStream.h"
#include "core/engine/SilentClock.h"
#include "core/time/SampleRate.h"

#include <atomic>
#include <chrono>
#include <cstdint>
#include <memory>
#include <span>
#include <utility>

namespace earwright {

/// Calls Mixer::render() for whoever's turn it is. Off at first.
///
/// Threads: fill() by the device's callback; setRate() and begin() by the thread that opens devices, while
/// the
///   feed is off; beginSilently() and renderSilently() by the clock's thread; the rest by any.
/// Real time: fill() neither locks, waits nor allocates. Where another is still rendering it gives silence.
class OutputFeed {
public:
    explicit OutputFeed(std::shared_ptr<Mixer> fed) : mixer(std::move(fed)) {}

    /// `stereo`: interleaved, filled to its end. `secondsUntilHeard`: of the first frame, as the device has
    /// it; not plausible from 5 s on or down to 0, and then taken from the latency. `ranDry`: the device says
    /// so.
    void fill(std::span<float> stereo, double secondsUntilHeard, bool ranDry);

    void setRate(SampleRate rate);
    /// The stream is about to call back, or does; from now on it renders.
    void begin(const OutputStream::Opened& stream);
    /// Returns whether it was on.
    bool end() { return streamIsOn.exchange(false, std::memory_order_acq_rel); }
    bool isOn() const { return streamIsOn.load(std::memory_order_acquire); }
    /// Since the stream called back last, or began.
    std::chrono::nanoseconds sinceCallback() const;

    /// The silent clock goes on from now.
    void beginSilently();
    /// Renders unheard what is due by the silent clock; nothing once the stream is on.
    void renderSilently();

private:
    const std::shared_ptr<Mixer> mixer;

    /// The clock's thread only.
    SilentClock silentClock;

    /// Set up before streamIsOn, then the callback's.
    GapWatch gaps;
    /// Seconds.
    double typicalDelay = 0;

    /// The stream may render; otherwise the silent clock does.
    std::atomic<bool> streamIsOn{false};
    /// Set anew with each stream, for Mixer::render().
    std::atomic<bool> isNewStream{true};
    /// Held while rendering, tried and never waited for.
    std::atomic_flag isRendering = ATOMIC_FLAG_INIT;
    std::atomic<std::int64_t> lastCallback{0};
    std::atomic<int> rate{48000};
};

} // namespace earwright
