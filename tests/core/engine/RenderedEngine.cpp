#include "tests/core/engine/RenderedEngine.h"

#include <algorithm>

namespace earwright::tests {

namespace {

constexpr std::size_t blockFrames = 128;

} // namespace

RenderedEngine::RenderedEngine(std::shared_ptr<Recording> recording, SampleRate outputRate)
    : rate(outputRate) {
    mixer->announceRate(rate);
    wish([&](Wanted& wanted) {
        wanted.recording = recording;
        wanted.jump = Frames(0);
    });
}

void RenderedEngine::loopFromStart(const Range<Frames>& loop, double speed) {
    wish([&](Wanted& wanted) {
        wanted.loop = loop;
        wanted.jump = loop.begin;
        wanted.speeds.set(speed);
    });
    play();
}

void RenderedEngine::render(std::int64_t frames) {
    std::vector<float> stereo;
    for (std::int64_t done = 0; done < frames;) {
        while (!work.step())
            ;
        const auto count = std::min<std::int64_t>(blockFrames, frames - done);
        stereo.assign(static_cast<std::size_t>(2 * count), 0.0f);
        mixer->render(stereo, rate, 0, heard.empty());
        const std::int64_t from = rendered();
        for (std::size_t i = 0; i < stereo.size(); i += 2)
            heard.push_back(stereo[i]);
        notePasses(from);
        done += count;
    }
}

void RenderedEngine::notePasses(std::int64_t from) {
    if (from == 0 || passAt(rendered() - 1) == passAt(from - 1)) return;
    for (std::int64_t frame = from; frame < rendered(); ++frame)
        if (passAt(frame) > passAt(frame - 1)) starts.push_back(frame);
}

HeardSegment RenderedEngine::segmentAt(std::int64_t frame) const {
    return mixer->heard().segmentAt(OutputFrames(frame)).value();
}

double RenderedEngine::placeAt(std::int64_t frame) const {
    const HeardSegment segment = segmentAt(frame);
    return segment.tags.placeAt(segment.laneFrameAt(OutputFrames(frame)));
}

std::int64_t RenderedEngine::passAt(std::int64_t frame) const {
    const HeardSegment segment = segmentAt(frame);
    return segment.tags.passAt(segment.laneFrameAt(OutputFrames(frame)));
}

} // namespace earwright::tests
