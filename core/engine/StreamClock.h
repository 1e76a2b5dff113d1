// When each frame of a stream passes the device, from reports that jitter.
#pragma once

#include "core/engine/Snapshot.h"

#include <cstdint>
#include <optional>

namespace earwright {

/// The steady line from frames of one stream to the steady clock, jitter smoothed away.
///
/// Threads: tick() and restart() by the stream's callback; the rest by any.
/// Real time: tick() neither locks nor allocates.
/// Units: frames counted as the owner counts them; nanoseconds of the steady clock.
class StreamClock {
public:
    /// The frame passed the device at this time, by the device's own account.
    void tick(std::int64_t frame, std::int64_t steadyNanoseconds, int rateHertz);
    /// Another device: what was known is no longer true.
    void restart() { ticks = 0; }
    /// How many nanoseconds later than expected a frame comes; nothing before the first tick. Callback.
    std::optional<double> lateness(std::int64_t frame, std::int64_t steadyNanoseconds) const;

    /// Nothing before the first tick.
    std::optional<std::int64_t> timeOf(std::int64_t frame) const;

    /// Further off than this is no jitter: frames were lost, or the latency is another one.
    static constexpr double jumpNanoseconds = 40e6;

private:
    struct Line {
        std::int64_t frame = 0;
        std::int64_t nanoseconds = 0;
        int rateHertz = 0;
    };

    Snapshot<Line> line;
    double originNanoseconds = 0;
    double perFrame = 0;
    std::int64_t ticks = 0;
};

} // namespace earwright
