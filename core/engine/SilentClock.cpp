#include "core/engine/SilentClock.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr double longestSleep = 1.0;

} // namespace

void SilentClock::restart(Time now) {
    since = now;
    rendered = 0;
}

std::size_t SilentClock::due(Time now, int hertz, std::size_t most) {
    const double passed = std::chrono::duration<double>(now - since).count();
    const double late = passed * hertz - static_cast<double>(rendered);
    if (late > longestSleep * hertz) {
        restart(now);
        return 0;
    }
    return std::min(most, static_cast<std::size_t>(std::max(0.0, late)));
}

} // namespace earwright
