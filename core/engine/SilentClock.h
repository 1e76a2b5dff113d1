// Counts the frames a device would have asked for, where there is none.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>

namespace earwright {

/// Threads: one at a time. Units: frames at the rate given.
class SilentClock {
public:
    using Time = std::chrono::steady_clock::time_point;

    /// Nothing is due at this moment.
    void restart(Time now);
    /// Frames due by now, at most `most`. What a long sleep of the machine left behind is not made up for.
    std::size_t due(Time now, int hertz, std::size_t most);
    /// So many of them were rendered.
    void advance(std::size_t frames) { rendered += static_cast<std::int64_t>(frames); }

private:
    Time since;
    std::int64_t rendered = 0;
};

} // namespace earwright
