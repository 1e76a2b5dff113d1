// The input on its way into the output mix, from one device's clock to the other's.
#pragma once

#include "core/engine/SpscRing.h"
#include "core/time/SampleRate.h"

#include <array>
#include <atomic>
#include <cstddef>
#include <span>

namespace earwright {

/// Hands mono samples from the input's callback to the output's. The two devices' clocks differ by a few
/// parts in ten thousand and possibly in rate, so the reader goes a little faster or slower to keep about
/// 15 ms waiting.
///
/// Threads: write() by the input's callback, add() by the output's; the controls by any.
/// Real time: everything but the constructor.
class MonitorTap {
public:
    MonitorTap() : waiting(1 << 14) {}

    /// Heard or not; off until said otherwise.
    void setHeard(bool heard) { isHeard.store(heard, std::memory_order_relaxed); }
    bool heard() const { return isHeard.load(std::memory_order_relaxed); }
    /// Linear, 0 to 2.
    void setLevel(float linear) { level.store(linear, std::memory_order_relaxed); }

    void write(std::span<const float> mono, SampleRate inputRate);
    /// Adds what is to be heard; silence where nothing came in time.
    void add(std::span<float> mono, SampleRate outputRate);

private:
    bool makeReady(double target);
    float next(double step);

    std::atomic<bool> isHeard{false};
    std::atomic<float> level{1};
    std::atomic<int> rateHertz{0};
    SpscRing<float> waiting;
    /// The output callback's: four neighbouring samples and the place between the middle two.
    std::array<float, 4> around{};
    double fraction = 0;
    float gain = 0;
    bool flowing = false;
};

} // namespace earwright
