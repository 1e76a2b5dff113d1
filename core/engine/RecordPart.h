// The record as it is heard: slowed, transposed, round and round a loop, at the rate of the device.
#pragma once

#include "core/engine/StretchedSource.h"
#include "core/engine/TimeTags.h"

#include <array>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

namespace earwright {

/// Output frame n stands at recording frame from + n · speed · recording rate ÷ output rate, loops unrolled;
/// the first output frame at or after the end of a pass is the first of the next, always.
///
/// Where both sides of a stretched loop's seam differ, or the loop ends between two frames, each pass is made
/// for itself: from a while before A, so that A sounds as in the midst of the music, and straight on past B.
/// The last 13 ms before B fade over into those before A, in the output. What was stretched once is kept and
/// repeated, where it is short enough for that, so that the loop costs nothing more.
///
/// Threads: one at a time (the engine's worker, or a bounce). Reads the disk, allocates.
class RecordPart {
public:
    /// Listener's seconds.
    static constexpr double fadeSeconds = LoopedSource::crossfadeSeconds;
    /// A stretcher that has just begun is steady after that.
    static constexpr double settleSeconds = 0.1;
    /// Longest pass that is kept, in frames of output; 4 MB in stereo.
    static constexpr std::int64_t mostKept = 1 << 19;

    /// What was heard before is forgotten; the first sound is ready after a few milliseconds of work.
    void start(const RecordStart& start);
    /// Goes along a line from its output frame 0 on: the loop's ends need not be whole frames, as those of a
    /// take are not. Requires: no loop in `start`, whose place and speed are the line's.
    void start(const RecordStart& start, const TimeTags& line);
    /// The next frames, in the recording's own channels, interleaved. Requires: start() was called.
    void produce(std::span<float> interleaved);
    int channels() const { return live[0].channels(); }

private:
    /// A pass that sounds: of what is kept from frame `at` on, or what its source makes.
    struct Pass {
        StretchedSource* source = nullptr;
        std::size_t at = 0;
        bool isToKeep = false;
    };
    /// Otherwise the loop's source itself goes round.
    bool joinsPasses() const { return seams.isLooped() && (wanted.isStretched() || !wanted.loop); }
    void begin(const RecordStart& start, const TimeTags& line);
    void holdLoop();
    void readPass(Pass& pass, std::span<float> interleaved);
    void fadeOver(std::span<float> interleaved);
    void beginNext();
    void endPass();
    std::int64_t endOf(std::int64_t pass) const { return seams.laneFrameOf(seams.passEnd(pass)); }

    RecordStart wanted;
    TimeTags seams;
    /// Keeps the loop's sound in memory, also while something else is played between.
    std::shared_ptr<const void> heldLoop;
    std::array<StretchedSource, 2> live;
    Pass now;
    Pass next;
    bool isFading = false;
    /// One pass from its fade on, as far as it has been heard; whole once its end was.
    std::vector<float> kept;
    bool isKept = false;
    std::int64_t fadeFrames = 0;
    std::int64_t passesEnded = 0;
    std::int64_t produced = 0;
    std::vector<float> comingIn;
};

} // namespace earwright
