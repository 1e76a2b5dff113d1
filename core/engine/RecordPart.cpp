#include "core/engine/RecordPart.h"

#include "core/engine/CrossFade.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace earwright {

namespace {

/// Before A and behind B, for the stretcher to look at.
constexpr double aroundLoopSeconds = 0.3;
/// Passes differ in length by a frame where it is not whole.
constexpr std::int64_t spareFrames = 2;

} // namespace

void RecordPart::start(const RecordStart& start) {
    RecordStart fit = start;
    if (fit.loop && fit.from >= fit.loop->end) fit.loop.reset();
    const double perOutput = fit.speed * static_cast<double>(fit.recording->rate().hertz) /
                             static_cast<double>(fit.outputRate.hertz);
    begin(fit, TimeTags(static_cast<double>(fit.from.value), perOutput, fit.loop, 0));
}

void RecordPart::start(const RecordStart& start, const TimeTags& line) {
    assert(!start.loop);
    begin(start, line);
}

void RecordPart::begin(const RecordStart& start, const TimeTags& line) {
    wanted = start;
    seams = line;
    holdLoop();
    if (seams.isLooped()) {
        const double pass = (seams.passEnd(1) - seams.passEnd(0)) / seams.framesPerOutput();
        fadeFrames = std::llround(std::min(fadeSeconds * wanted.outputRate.hertz, pass / 2));
    }
    live[0].start(wanted);
    now = {&live[0], 0, false};
    isFading = false;
    isKept = false;
    kept.clear();
    passesEnded = 0;
    produced = 0;
}

void RecordPart::holdLoop() {
    // What was held before is let go only once the new loop is held, which may be the same.
    const std::shared_ptr<const void> heldBefore = std::exchange(heldLoop, nullptr);
    if (!seams.isLooped()) return;
    const Frames around = wanted.recording->rate().frames(Seconds(aroundLoopSeconds));
    const Frames first(static_cast<std::int64_t>(std::floor(seams.loopBegin())));
    const Frames last(static_cast<std::int64_t>(std::ceil(seams.loopEnd())));
    heldLoop = wanted.recording->hold({std::max(Frames(0), first - around), last + around});
}

void RecordPart::produce(std::span<float> interleaved) {
    const auto wide = static_cast<std::size_t>(channels());
    while (!interleaved.empty()) {
        auto frames = static_cast<std::int64_t>(interleaved.size() / wide);
        bool isInFade = false;
        if (joinsPasses()) {
            const std::int64_t end = endOf(passesEnded);
            isInFade = produced >= end - fadeFrames;
            frames = std::min(frames, isInFade ? end - produced : end - fadeFrames - produced);
        }
        const auto part = interleaved.first(static_cast<std::size_t>(frames) * wide);
        readPass(now, part);
        if (isInFade && !(now.source && now.source->goesRound())) fadeOver(part);
        produced += frames;
        if (isInFade && produced == endOf(passesEnded)) endPass();
        interleaved = interleaved.subspan(part.size());
    }
}

void RecordPart::readPass(Pass& pass, std::span<float> interleaved) {
    if (pass.source) {
        pass.source->produce(interleaved);
        if (pass.isToKeep) kept.insert(kept.end(), interleaved.begin(), interleaved.end());
        return;
    }
    std::copy_n(kept.begin() + static_cast<std::ptrdiff_t>(pass.at), interleaved.size(), interleaved.begin());
    pass.at += interleaved.size();
}

void RecordPart::fadeOver(std::span<float> interleaved) {
    if (!isFading) beginNext();
    const auto wide = static_cast<std::size_t>(channels());
    comingIn.resize(interleaved.size());
    readPass(next, comingIn);
    const std::int64_t faded = fadeFrames - (endOf(passesEnded) - produced);
    for (std::size_t i = 0; i < interleaved.size(); ++i) {
        const auto done = static_cast<double>(faded + static_cast<std::int64_t>(i / wide) + 1);
        const auto in = static_cast<float>(fadeIn(done / (static_cast<double>(fadeFrames) + 1)));
        interleaved[i] += in * (comingIn[i] - interleaved[i]);
    }
}

void RecordPart::beginNext() {
    isFading = true;
    next = {};
    // The pass that is being kept has had its own fade long before.
    if (!isKept && !now.isToKeep) {
        const std::int64_t end = endOf(passesEnded);
        RecordStart straight = wanted;
        straight.from = Frames(
            std::llround(seams.placeAt(end) - static_cast<double>(fadeFrames) * seams.framesPerOutput()));
        straight.loop.reset();
        straight.settleSeconds = settleSeconds;
        next.source = now.source == &live[0] ? &live[1] : &live[0];
        next.source->start(straight);
        const std::int64_t pass = endOf(passesEnded + 1) - end + fadeFrames;
        next.isToKeep = pass + spareFrames <= mostKept;
    }
    // A pass that was begun in its fade.
    const std::int64_t missed = fadeFrames - (endOf(passesEnded) - produced);
    comingIn.resize(static_cast<std::size_t>(missed * channels()));
    readPass(next, comingIn);
}

void RecordPart::endPass() {
    ++passesEnded;
    if (!isFading) return;
    isFading = false;
    if (now.isToKeep) {
        comingIn.resize(static_cast<std::size_t>(spareFrames * channels()));
        readPass(now, comingIn);
        isKept = true;
    }
    now = next;
}

} // namespace earwright
