// The engine without device and threads: what it would play, rendered step by step, always the same.
#pragma once

#include "core/engine/LaneWork.h"
#include "core/engine/Mixer.h"

#include <memory>
#include <vector>

namespace earwright::tests {

/// Worker and callback take turns: a block is rendered when all work is done.
class RenderedEngine {
public:
    RenderedEngine(std::shared_ptr<Recording> recording, SampleRate outputRate);

    /// Changes what is wanted, as a message to the worker does; a new lane follows.
    template <class Change>
    void wish(Change&& change) {
        work.change([&](Wanted& wanted) {
            change(wanted);
            wanted.wish = ++wishes;
            wanted.changed = true;
        });
        mixer->requireWish(wishes);
    }
    /// Changes how passes go on.
    template <class Change>
    void replan(Change&& change) {
        work.change([&](Wanted& wanted) {
            change(wanted);
            wanted.replan = true;
        });
    }
    void play() { mixer->setPlaying(true); }
    /// The loop, played from its start.
    void loopFromStart(const Range<Frames>& loop, double speed);

    /// Renders so many frames more; everything rendered is kept.
    void render(std::int64_t frames);
    /// The left channel since the beginning.
    const std::vector<float>& left() const { return heard; }
    std::int64_t rendered() const { return static_cast<std::int64_t>(heard.size()); }
    /// What an output frame was. Requires: something sounded before it.
    HeardSegment segmentAt(std::int64_t frame) const;
    double placeAt(std::int64_t frame) const;
    std::int64_t passAt(std::int64_t frame) const;
    /// The output frames from which a higher pass is heard, up to now.
    const std::vector<std::int64_t>& passStarts() const { return starts; }

    std::shared_ptr<Mixer> mixer = std::make_shared<Mixer>();
    LaneWork work{mixer};

private:
    void notePasses(std::int64_t from);

    SampleRate rate;
    std::uint64_t wishes = 0;
    std::vector<float> heard;
    std::vector<std::int64_t> starts;
};

} // namespace earwright::tests
