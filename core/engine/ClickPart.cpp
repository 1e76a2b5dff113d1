#include "core/engine/ClickPart.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace earwright {

namespace {

/// Rounding to frames may put a place that is on a beat this much behind it.
constexpr double roundingFrames = 1.5;

} // namespace

void ClickPart::start(const TimeTags& laneTags, const Lead& lead, SampleRate outputRate, BeatList beats) {
    sound.setRate(outputRate);
    tags = laneTags;
    list = std::move(beats);
    at = 0;
    sounding.clear();
    ofLead.clear();
    leadCounts = lead.stage == Stage::CountIn;
    for (const LeadClick& click : lead.clicks)
        ofLead.push_back({tags.lead() - std::llround(click.before * outputRate.hertz), click.opensBar});
    findNext(-reachBack(outputRate));
}

/// Recording frames before the start in which a beat still counts as the lane's own.
double ClickPart::reachBack(SampleRate outputRate) const {
    // Where a pass begins, its first beat is the one at the loop's start.
    if (tags.isLooped() && tags.start() == tags.loopBegin()) return 0;
    if (tags.lead() > 0) return roundingFrames;
    return ClickSound::seconds * outputRate.hertz * tags.framesPerOutput();
}

void ClickPart::setBeats(BeatList beats) {
    list = std::move(beats);
    findNext(tags.unrolledAt(at));
}

double ClickPart::distance(const BeatPlace& beat) const {
    const auto place = static_cast<double>(beat.at.value);
    if (passesOn == 0) return place - tags.start();
    return tags.passEnd(passesOn - 1) + place - tags.loopBegin();
}

void ClickPart::findNext(double unrolled) {
    findNextIn(tags.isLooped() ? tags.passesEndedBy(unrolled) : 0, unrolled);
}

void ClickPart::findNextIn(std::int64_t pass, double unrolled) {
    passesOn = pass;
    const auto found = std::partition_point(list->begin(), list->end(),
                                            [&](const BeatPlace& beat) { return distance(beat) < unrolled; });
    next = static_cast<std::size_t>(found - list->begin());
}

bool ClickPart::takeBeatBefore(std::int64_t frame, Stroke& stroke) {
    for (;;) {
        const double passEnd =
            tags.isLooped() ? tags.passEnd(passesOn) : std::numeric_limits<double>::infinity();
        if (next < list->size() && distance((*list)[next]) < passEnd) {
            const BeatPlace& beat = (*list)[next];
            const std::int64_t sounds = tags.laneFrameOf(distance(beat));
            if (sounds >= frame) return false;
            stroke = {sounds, beat.opensBar};
            ++next;
            return true;
        }
        if (!tags.isLooped() || tags.laneFrameOf(passEnd) >= frame) return false;
        findNextIn(passesOn + 1, passEnd);
    }
}

void ClickPart::render(const Stroke& stroke, std::span<float> out) const {
    const auto samples = sound.samples(stroke.opensBar);
    const auto count = static_cast<std::int64_t>(out.size());
    const auto length = static_cast<std::int64_t>(samples.size());
    const std::int64_t first = std::max<std::int64_t>(0, stroke.at - at);
    const std::int64_t last = std::min(count, stroke.at + length - at);
    for (std::int64_t i = first; i < last; ++i)
        out[static_cast<std::size_t>(i)] += samples[static_cast<std::size_t>(at + i - stroke.at)];
}

void ClickPart::produce(std::span<float> clicks, std::span<float> counted) {
    const std::int64_t end = at + static_cast<std::int64_t>(clicks.size());
    for (const Stroke& stroke : ofLead)
        render(stroke, leadCounts ? counted : clicks);
    for (Stroke stroke; takeBeatBefore(end, stroke);)
        if (sounding.size() < mostSounding) sounding.push_back(stroke);
    for (const Stroke& stroke : sounding)
        render(stroke, clicks);
    const auto length = static_cast<std::int64_t>(sound.samples(false).size());
    std::erase_if(sounding, [&](const Stroke& stroke) { return stroke.at + length <= end; });
    at = end;
}

} // namespace earwright
