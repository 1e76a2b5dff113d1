#include "core/listening/StereoViews.h"

#include "core/listening/CentreExtraction.h"

#include <algorithm>

namespace earwright {

namespace {

/// Sides that differ by less than this share of their sum make a picture too narrow to listen into.
constexpr double leastWidth = 0.05;

std::vector<float> cut(const std::vector<float>& sound, std::ptrdiff_t begin, std::ptrdiff_t end) {
    return {sound.begin() + begin, sound.begin() + end};
}

bool isWide(const std::vector<float>& left, const std::vector<float>& right) {
    double sides = 0;
    double sum = 1e-12;
    for (std::size_t i = 0; i < left.size(); ++i) {
        const double l = left[i];
        const double r = right[i];
        sides += (l - r) * (l - r);
        sum += (l + r) * (l + r);
    }
    return sides > leastWidth * leastWidth * sum;
}

} // namespace

StereoViews::StereoViews(const AnalysisSound& sound, Range<Seconds> passage) {
    const auto first = static_cast<std::ptrdiff_t>(sound.firstSample);
    const std::ptrdiff_t last = first + static_cast<std::ptrdiff_t>(sound.left.size());
    const auto sampleOf = [&](Seconds time) {
        return std::clamp<std::ptrdiff_t>(analysisRate.frames(time).value, first, last);
    };
    firstSample = sampleOf(passage.begin - surroundings);
    const std::ptrdiff_t end = std::max(firstSample, sampleOf(passage.end + surroundings));
    std::vector<float> left = cut(sound.left, firstSample - first, end - first);
    if (!sound.isStereo()) {
        samples.push_back(std::move(left));
        return;
    }
    std::vector<float> right = cut(sound.right, firstSample - first, end - first);
    std::vector<float> both(left.size());
    std::transform(left.begin(), left.end(), right.begin(), both.begin(),
                   [](float l, float r) { return 0.5f * (l + r); });
    samples.push_back(std::move(both));
    if (!isWide(left, right)) return;
    std::vector<float> centre = centreOf(left, right);
    std::vector<float> sides(left.size());
    std::transform(left.begin(), left.end(), right.begin(), sides.begin(),
                   [](float l, float r) { return 0.5f * (l - r); });
    samples.push_back(std::move(left));
    samples.push_back(std::move(right));
    samples.push_back(std::move(centre));
    samples.push_back(std::move(sides));
}

std::ptrdiff_t StereoViews::sampleAt(Seconds time) const {
    return static_cast<std::ptrdiff_t>(analysisRate.frames(time).value) - firstSample;
}

Seconds StereoViews::timeOf(std::ptrdiff_t sample) const {
    return analysisRate.seconds(Frames(firstSample + sample));
}

} // namespace earwright
