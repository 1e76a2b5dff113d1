// The beat clicks of a lane, in output time.
#pragma once

#include "core/engine/BeatPlace.h"
#include "core/engine/ClickSound.h"
#include "core/engine/Lead.h"
#include "core/engine/TimeTags.h"
#include "core/time/SampleRate.h"

#include <cstdint>
#include <span>
#include <vector>

namespace earwright {

/// Each click starts in the output frame whose tag is its beat, and those of a lead so long before the record
/// begins. A click that begins before the lane does is heard from its middle on.
///
/// Threads: one at a time (the engine's worker).
class ClickPart {
public:
    void start(const TimeTags& tags, const Lead& lead, SampleRate outputRate, BeatList beats);
    /// Other beats from here on.
    void setBeats(BeatList beats);
    /// Adds the next frames, mono: the beats, and those of a count-in apart, which are heard in any case.
    void produce(std::span<float> clicks, std::span<float> counted);

private:
    struct Stroke {
        std::int64_t at = 0;
        bool opensBar = false;
    };
    double reachBack(SampleRate outputRate) const;
    void findNext(double unrolled);
    void findNextIn(std::int64_t pass, double unrolled);
    double distance(const BeatPlace& beat) const;
    bool takeBeatBefore(std::int64_t frame, Stroke& stroke);
    void render(const Stroke& stroke, std::span<float> out) const;
    static constexpr std::size_t mostSounding = 16;

    ClickSound sound;
    TimeTags tags;
    BeatList list;
    std::vector<Stroke> ofLead;
    bool leadCounts = false;
    std::vector<Stroke> sounding;
    std::int64_t at = 0;
    std::int64_t passesOn = 0;
    std::size_t next = 0;
};

} // namespace earwright
