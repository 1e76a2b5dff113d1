// Where, in the frames of a lane that goes round a loop, another lane has to take over.
#pragma once

#include "core/engine/LoopedSource.h"
#include "core/engine/PassSpeeds.h"
#include "core/engine/TimeTags.h"
#include "core/time/Range.h"
#include "core/time/SampleRate.h"

#include <cstdint>
#include <optional>

namespace earwright {

/// The next lane joins so long before a pass ends that it is faded in when its own pass begins, and what is
/// at A keeps its attack whole: [B − X, B) fades over into [A − X, A). Where a sound goes on over the seam,
/// as the record's in a climb or the record's and a take's in trade, the lane that goes round does the same
/// within itself (RecordPart), and nobody is to hear that too: three sounds in one fade would step too far.
/// There [B − 2X, B − X) fades over into [A − 2X, A − X).
///
/// Threads: a plain value.
/// Units: output frames of the lane, unless said otherwise. Passes as the tags number them.
class LoopSeam {
public:
    /// Listener's seconds of the fade.
    static constexpr double fadeSeconds = LoopedSource::crossfadeSeconds;
    /// A lane that goes on from another is ready so long after it was begun.
    static constexpr double readySeconds = 0.03;
    /// No lane is made ready for a seam further ahead than this.
    static constexpr double planSeconds = 0.5;

    /// Requires: looped tags. `hasTake`: the turn after the record's in trade is a take's, not written
    /// notes'.
    LoopSeam(const TimeTags& tags, SampleRate outputRate, bool hasTake)
        : places(tags), rate(outputRate), takeSounds(hasTake) {}

    std::int64_t fadeFrames() const { return rate.outputFrames(fadeSeconds).value; }
    /// The first frame of the pass after this one.
    std::int64_t endOf(std::int64_t pass) const {
        return places.laneFrameOf(places.passEnd(pass - places.passAt(0)));
    }
    /// Frames by which the lane after a pass begins before the next.
    std::int64_t earlyAfter(std::int64_t pass, const PassSpeeds& speeds) const;

    /// For a gap, or because the pass that follows has another speed than the one before it.
    static bool changesAfter(std::int64_t pass, const PassSpeeds& speeds) {
        return speeds.manner().gapBeats > 0 || speeds.speedOf(pass + 1) != speeds.speedOf(pass);
    }
    /// The next pass that needs another lane after it, for a gap or because the pass that follows has another
    /// speed than this lane's, where that lane is to join within a range of lane frames.
    std::optional<std::int64_t> nextChange(const PassSpeeds& speeds, double laneSpeed,
                                           const Range<std::int64_t>& within) const;

private:
    TimeTags places;
    SampleRate rate;
    bool takeSounds = false;
};

} // namespace earwright
