#include "core/engine/HeardLog.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// Reported times jitter by some milliseconds from callback to callback; the mean is what the ear hears.
constexpr double smoothing = 0.02;
/// A step larger than this is no jitter but a new latency.
constexpr double jumpNanoseconds = 40e6;

} // namespace

void HeardLog::note(const HeardSegment& segment) {
    if (segments.count > 0) {
        const HeardSegment& last = segments.ring[(segments.count - 1) % kept];
        const bool same = last.moving == segment.moving && last.wish == segment.wish &&
                          last.tags == segment.tags && last.laneFrameAt(segment.output) == segment.laneFrame;
        if (same) return;
    }
    segments.ring[segments.count % kept] = segment;
    ++segments.count;
    segmentsShown.store(segments);
}

void HeardLog::tick(OutputFrames output, std::int64_t steadyNanoseconds, int rateHertz,
                    OutputFrames rendered) {
    const double perFrame = 1e9 / rateHertz;
    const double origin =
        static_cast<double>(steadyNanoseconds) - static_cast<double>(output.value) * perFrame;
    const double off = origin - originNanoseconds;
    if (!clockKnown || std::abs(off) > jumpNanoseconds)
        originNanoseconds = origin;
    else
        originNanoseconds += smoothing * off;
    clockKnown = true;
    clockShown.store({output, std::llround(originNanoseconds + static_cast<double>(output.value) * perFrame),
                      rateHertz, rendered});
}

OutputFrames HeardLog::heardAt(std::int64_t steadyNanoseconds) const {
    const HeardClock known = clock();
    const double seconds = static_cast<double>(steadyNanoseconds - known.steadyNanoseconds) * 1e-9;
    const auto since = static_cast<std::int64_t>(std::floor(seconds * known.rateHertz));
    return std::min(known.output + OutputFrames(since), known.rendered);
}

std::optional<HeardSegment> HeardLog::segmentAt(OutputFrames output) const {
    const Segments all = segmentsShown.load();
    const std::uint64_t oldest = all.count > kept ? all.count - kept : 0;
    for (std::uint64_t i = all.count; i > oldest; --i) {
        const HeardSegment& segment = all.ring[(i - 1) % kept];
        if (segment.output <= output) return segment;
    }
    return std::nullopt;
}

} // namespace earwright
