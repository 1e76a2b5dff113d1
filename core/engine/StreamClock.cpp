#include "core/engine/StreamClock.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// Reported times jitter by some milliseconds from callback to callback; their mean is right. The first ticks
/// count alike, later ones as a slowly forgetting mean.
constexpr double slowest = 0.01;

} // namespace

void StreamClock::tick(std::int64_t frame, std::int64_t steadyNanoseconds, int rateHertz) {
    perFrame = 1e9 / rateHertz;
    const double origin = static_cast<double>(steadyNanoseconds) - static_cast<double>(frame) * perFrame;
    const double off = origin - originNanoseconds;
    if (ticks == 0 || std::abs(off) > jumpNanoseconds) {
        originNanoseconds = origin;
        ticks = 0;
    } else {
        originNanoseconds += std::max(slowest, 1.0 / static_cast<double>(ticks + 1)) * off;
    }
    ++ticks;
    line.store({frame, std::llround(originNanoseconds + static_cast<double>(frame) * perFrame), rateHertz});
}

std::optional<double> StreamClock::lateness(std::int64_t frame, std::int64_t steadyNanoseconds) const {
    if (ticks == 0) return std::nullopt;
    return static_cast<double>(steadyNanoseconds) - static_cast<double>(frame) * perFrame - originNanoseconds;
}

std::optional<std::int64_t> StreamClock::timeOf(std::int64_t frame) const {
    const Line known = line.load();
    if (known.rateHertz == 0) return std::nullopt;
    return known.nanoseconds + std::llround(static_cast<double>(frame - known.frame) * 1e9 / known.rateHertz);
}

} // namespace earwright
