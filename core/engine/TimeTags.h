// Where in the recording each frame of output comes from.
#pragma once

#include "core/time/Frames.h"
#include "core/time/Range.h"

#include <cstdint>
#include <optional>

namespace earwright {

/// The line from output frames of one lane (counted from its first) to frames of the recording. It is exact
/// by construction: no counting, so nothing drifts, and each pass of a loop starts at the same frame.
///
/// Threads: a plain value; read anywhere.
/// Units: speed of the line in recording frames an output frame (speed × recording rate ÷ device rate).
class TimeTags {
public:
    TimeTags() = default;
    /// Lane frame `lead` is recording frame `start`, in pass `firstPass` of the loop; the frames before stand
    /// there and wait. A start at or after the loop's end runs straight on. A framesPerOutput of 0 stands
    /// still for ever.
    TimeTags(double start, double framesPerOutput, std::optional<Range<Frames>> loop, std::int64_t firstPass,
             std::int64_t lead = 0);

    /// The same line in frames of another sound, begun so many output frames before this one's start and
    /// without its lead. A frame of that sound covers `perFrame` frames of the recording, its frame 0 belongs
    /// to the place `zero`. Its loop may end between two frames.
    TimeTags inFramesOf(double zero, double perFrame, std::int64_t earlier) const;

    friend bool operator==(const TimeTags&, const TimeTags&) = default;

    /// Recording frame, with its fraction.
    double placeAt(std::int64_t laneFrame) const;
    std::int64_t passAt(std::int64_t laneFrame) const;
    /// How far along, loops unrolled, in recording frames from the start.
    double unrolledAt(std::int64_t laneFrame) const {
        return laneFrame <= leadFrames ? 0.0 : static_cast<double>(laneFrame - leadFrames) * step;
    }
    /// The first lane frame at or after an unrolled distance.
    std::int64_t laneFrameOf(double unrolled) const;

    double start() const { return from; }
    std::int64_t lead() const { return leadFrames; }
    double framesPerOutput() const { return step; }
    /// Lane frames of another line in which as much of the recording goes by as in one of this; 0 where one
    /// of them stands still.
    double ratioTo(const TimeTags& other) const { return other.step > 0 ? step / other.step : 0; }
    bool isLooped() const { return length > 0; }
    /// Recording frames between which the loop lies. Requires: isLooped().
    double loopBegin() const { return loopStart; }
    double loopEnd() const { return loopStart + length; }
    /// Unrolled distance from the start to the end of the current pass, then of each later one. Requires:
    /// isLooped().
    double passEnd(std::int64_t passesOn) const;
    /// How many passes are over at an unrolled distance. Requires: isLooped().
    std::int64_t passesEndedBy(double unrolled) const;

private:
    double loopsEndedAt(double place) const;

    double from = 0;
    double step = 1;
    double loopStart = 0;
    /// 0: straight on.
    double length = 0;
    std::int64_t pass = 0;
    std::int64_t leadFrames = 0;
};

} // namespace earwright
