// Finds out which parts of what was played belong to which place of the recording.
#pragma once

#include "core/engine/HeardLog.h"
#include "core/engine/InputBlock.h"
#include "core/time/Frames.h"
#include "core/time/Range.h"
#include "core/time/SampleRate.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace earwright {

/// What was heard while an input block was played, the round trip taken into account.
struct HeardThen {
    /// Output frame, with its fraction, that was heard with the block's first frame.
    double output = 0;
    HeardSegment segment;
    SampleRate outputRate;
};

/// A part of the input played along with one stretch of the recording, lined up with it.
struct CutTake {
    Range<InputFrames> part;
    /// Frame of the recording heard with the first frame of the part.
    Frames at;
    /// Frames of the recording an input frame covers, on the output's clock.
    double framesPerInput = 1;
    double semitones = 0;
    /// A loop's pass from its start to its end.
    bool isWholePass = false;
};

/// Whatever runs on evenly is one take; a seek, a pause, another speed or pitch, and the end of each pass of
/// a loop begin another. What is shorter than 0.3 s or in which nobody played (all below −54 dB) is left out.
///
/// Threads: one at a time.
/// Units: input frames as stamped; recording frames.
class TakeCutter {
public:
    static constexpr double shortestSeconds = 0.3;
    static constexpr float softestPeak = 0.002f;

    /// The next block. Nothing was heard where `heard` is nothing.
    void give(const InputBlock& block, const std::optional<HeardThen>& heard);
    /// Ends what runs.
    void finish();
    /// Takes out what is complete, in order.
    std::vector<CutTake> take();

private:
    struct Run {
        HeardThen first;
        std::int64_t stream = 0;
        int inputRate = 48000;
        std::int64_t begin = 0;
        std::int64_t end = 0;
        /// Output frame minus input frame at the output's rate, for each block: constant but for jitter.
        std::vector<double> offsets;
        double offsetSum = 0;
        std::vector<float> peaks;
        /// Lane frame up to which takes have been cut.
        std::int64_t cutTo = 0;
    };

    /// The line from input frames to output frames.
    struct Fit {
        double atBegin = 0;
        double slope = 1;
    };

    bool goesOn(const InputBlock& block, const HeardThen& heard) const;
    void begin(const InputBlock& block, const HeardThen& heard);
    void noteBlock(const InputBlock& block, const HeardThen& heard);
    void cutPassesUpTo(std::int64_t laneFrame);
    void cut(std::int64_t fromLane, std::int64_t toLane, bool isWholePass);
    bool startsItsPass(std::int64_t laneFrame) const;
    std::int64_t wholeMargin() const;
    double ratio() const;
    Fit roughFit() const;
    Fit exactFit() const;
    double laneFrameAt(const Fit& fit, std::int64_t inputFrame) const;
    double inputFrameAt(const Fit& fit, std::int64_t laneFrame) const;
    float peakIn(std::int64_t from, std::int64_t to) const;

    std::optional<Run> run;
    std::vector<CutTake> ready;
};

} // namespace earwright
