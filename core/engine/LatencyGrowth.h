// When a device that keeps running dry is asked for more room.
#pragma once

#include <algorithm>
#include <chrono>

namespace earwright {

/// Three gaps within five seconds double the latency asked for, up to 0.32 s. One gap alone is borne:
/// opening the device anew is a gap itself.
///
/// Threads: one at a time.
class LatencyGrowth {
public:
    using Time = std::chrono::steady_clock::time_point;
    static constexpr int tooManyGaps = 3;
    static constexpr std::chrono::seconds window{5};
    static constexpr double longest = 0.32;

    /// Begins with what the user wished for. Gaps before do not count.
    void restart(double wishedSeconds, int gapsBefore, Time now) {
        wished = asked = wishedSeconds;
        before = gapsBefore;
        since = now;
    }
    /// All gaps so far. True where the device is now to be opened with the longer latency.
    bool notice(int gaps, Time now) {
        const bool isTooMuch = gaps - before >= tooManyGaps;
        if (!isTooMuch && now - since < window) return false;
        before = gaps;
        since = now;
        if (!isTooMuch || asked >= longest) return false;
        asked = std::min(2 * asked, longest);
        return true;
    }
    double latencySeconds() const { return asked; }
    bool isGrown() const { return asked > wished; }

private:
    double wished = 0;
    double asked = 0;
    int before = 0;
    Time since;
};

} // namespace earwright
