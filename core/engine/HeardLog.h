// What the callback handed to the device, so that others can tell what is heard at any moment.
#pragma once

#include "core/engine/Snapshot.h"
#include "core/engine/Stage.h"
#include "core/engine/TimeTags.h"
#include "core/time/Frames.h"

#include <array>
#include <cstdint>
#include <optional>

namespace earwright {

/// From one output frame on: lane frames follow each other, or the sound stands still.
struct HeardSegment {
    OutputFrames output;
    std::int64_t laneFrame = 0;
    TimeTags tags;
    /// Which wish of the user the lane answers.
    std::uint64_t wish = 0;
    bool moving = false;
    /// Played ÷ original, now and as set.
    double speed = 1;
    double reachedSpeed = 1;
    /// What the lane's lead is, and output frames of a beat in it.
    Stage leadStage = Stage::Sounding;
    double leadBeat = 1;
    /// How far the record is transposed, cents as a fraction.
    double semitones = 0;

    /// Lane frame that sounds in an output frame of this segment.
    std::int64_t laneFrameAt(OutputFrames heard) const {
        return moving ? laneFrame + (heard - output).value : laneFrame;
    }
};

/// When a certain output frame leaves the device, on the steady clock.
struct HeardClock {
    OutputFrames output;
    std::int64_t steadyNanoseconds = 0;
    int rateHertz = 48000;
    /// Frames rendered so far; none behind can be heard yet.
    OutputFrames rendered;
};

/// Threads: the callback writes; any thread reads.
/// Real time: writing neither locks nor allocates.
class HeardLog {
public:
    /// Callback: this is what output frame `segment.output` and those after it are. Said again without a jump
    /// it costs nothing.
    void note(const HeardSegment& segment);
    /// Callback: output frame `output` will be heard at this time; jitter is smoothed away.
    void tick(OutputFrames output, std::int64_t steadyNanoseconds, int rateHertz, OutputFrames rendered);
    /// Callback: the clock starts anew, for example with another device.
    void restartClock() { clockKnown = false; }

    /// The output frame heard at a time on the steady clock.
    OutputFrames heardAt(std::int64_t steadyNanoseconds) const;
    /// The segment an output frame belongs to; nothing before the first or where it is long gone.
    std::optional<HeardSegment> segmentAt(OutputFrames output) const;
    HeardClock clock() const { return clockShown.load(); }

private:
    static constexpr std::size_t kept = 64;
    struct Segments {
        std::array<HeardSegment, kept> ring{};
        std::uint64_t count = 0;
    };

    Segments segments;
    Snapshot<Segments> segmentsShown;
    Snapshot<HeardClock> clockShown;
    bool clockKnown = false;
    /// Steady time of output frame 0, as smoothed.
    double originNanoseconds = 0;
};

} // namespace earwright
