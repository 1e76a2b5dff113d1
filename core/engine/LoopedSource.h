// The recording as an endless stream: straight on, or round and round a loop without a seam.
#pragma once

#include "core/sound/Recording.h"
#include "core/time/Frames.h"
#include "core/time/Range.h"

#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace earwright {

/// Reads frames one after the other. With a loop [A, B) the frame after B − 1 is A, always: the last
/// milliseconds before B fade over into those before A, so nothing is added or left out and the sound of A
/// itself is untouched. Before the recording's start and after its end there is silence.
///
/// Threads: one at a time; reads the disk.
/// Units: interleaved frames of the recording.
class LoopedSource {
public:
    /// As long as that, no step is larger than 1.25 times a tone's own from the low E of a bass (41 Hz) up.
    static constexpr double crossfadeSeconds = 0.013;
    static constexpr double shortestLoopSeconds = 0.05;

    /// When the loop is gone round.
    enum class Round {
        Always,
        WhereItFits, ///< where the sound before B is that before A; otherwise straight on for ever
    };

    /// Starts at `from`, which may lie before the recording or the loop. A place at or after the loop's end
    /// plays straight on. Requires: a loop longer than a frame.
    LoopedSource(std::shared_ptr<Recording> recording, Frames from, std::optional<Range<Frames>> loop,
                 Round round = Round::Always);

    void read(std::span<float> interleaved);
    /// The frame that comes next.
    Frames position() const { return next; }
    /// Known once the first fade was read.
    bool goesRound() const { return loop.has_value(); }

    /// The loop as it is played: within the recording and not shorter than 50 ms (pushed along or widened
    /// where it is).
    static Range<Frames> playable(const Range<Frames>& loop, const Recording& recording);

private:
    bool fits() const;
    void readFaded(Frames from, std::span<float> interleaved);

    std::shared_ptr<Recording> recording;
    std::optional<Range<Frames>> loop;
    Frames next;
    Frames fade;
    bool isInDoubt = false;
    std::vector<float> intoStart;
};

} // namespace earwright
