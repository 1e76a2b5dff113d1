#include "core/listening/HeardPart.h"

#include "core/listening/CentreExtraction.h"
#include "core/listening/StereoViews.h"
#include "core/sound/BandFilter.h"

#include <algorithm>

namespace earwright {

namespace {

std::vector<float> halfDifference(const std::vector<float>& left, const std::vector<float>& right) {
    std::vector<float> sides(left.size());
    std::transform(left.begin(), left.end(), right.begin(), sides.begin(),
                   [](float l, float r) { return 0.5f * (l - r); });
    return sides;
}

AnalysisSound cutAround(const AnalysisSound& sound, Range<Seconds> passage) {
    const auto size = static_cast<std::int64_t>(sound.left.size());
    const auto indexOf = [&](Seconds time) {
        return std::clamp<std::int64_t>(analysisRate.frames(time).value - sound.firstSample, 0, size);
    };
    const auto begin = indexOf(passage.begin - StereoViews::surroundings);
    const auto end = std::max(begin, indexOf(passage.end + StereoViews::surroundings));
    AnalysisSound part;
    part.firstSample = sound.firstSample + begin;
    part.left.assign(sound.left.begin() + begin, sound.left.begin() + end);
    if (sound.isStereo()) part.right.assign(sound.right.begin() + begin, sound.right.begin() + end);
    return part;
}

void putInFocus(AnalysisSound& sound, Focus focus) {
    if (!sound.isStereo()) {
        // What is the same on both sides has no sides.
        if (focus == Focus::Sides) std::fill(sound.left.begin(), sound.left.end(), 0.0f);
        return;
    }
    switch (focus) {
    case Focus::All:
        return;
    case Focus::Left:
        break;
    case Focus::Right:
        sound.left = sound.right;
        break;
    case Focus::Centre:
        sound.left = centreOf(sound.left, sound.right);
        break;
    case Focus::Sides:
        sound.left = halfDifference(sound.left, sound.right);
        break;
    }
    sound.right.clear();
}

void filterBothWays(std::vector<float>& samples, const Band& band) {
    for (int way = 0; way < 2; ++way) {
        BandFilter(band, analysisRate).process(samples);
        std::reverse(samples.begin(), samples.end());
    }
}

} // namespace

AnalysisSound heardPart(const AnalysisSound& sound, Range<Seconds> passage, const HeardPart& part) {
    AnalysisSound heard = cutAround(sound, passage);
    putInFocus(heard, part.focus);
    if (!part.band) return heard;
    filterBothWays(heard.left, *part.band);
    filterBothWays(heard.right, *part.band);
    return heard;
}

} // namespace earwright
