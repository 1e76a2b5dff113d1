#include "core/listening/LineLevel.h"

#include "core/listening/SoundAround.h"
#include "core/sound/RealTransform.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>

namespace earwright {

namespace {

constexpr std::size_t pitchWindow = 512;
constexpr std::size_t noiseWindow = 256;

std::size_t placesIn(Range<Seconds> time) {
    return time.isEmpty() ? 0 : static_cast<std::size_t>(std::ceil(ratio(time.length(), LineLevel::step)));
}

constexpr int partials = 8;

/// Amplitudes at the first `count` multiples of a frequency (Goertzel's recursion, Amer. Math. Monthly 65,
/// 1958), side by side, so that none of them waits for its own last step alone.
std::array<double, partials> amplitudesAt(std::span<const float> samples, double hertz, int count) {
    std::array<double, partials> factor{}, one{}, two{}, amplitudes{};
    for (std::size_t h = 0; h < partials; ++h)
        factor[h] =
            2 * std::cos(2 * std::numbers::pi * static_cast<double>(h + 1) * hertz / analysisRate.hertz);
    for (const float sample : samples)
        for (std::size_t h = 0; h < partials; ++h) {
            const double next = sample + factor[h] * one[h] - two[h];
            two[h] = one[h];
            one[h] = next;
        }
    for (std::size_t h = 0; h < static_cast<std::size_t>(count); ++h)
        amplitudes[h] =
            std::sqrt(std::max(0.0, one[h] * one[h] + two[h] * two[h] - factor[h] * one[h] * two[h]));
    return amplitudes;
}

} // namespace

std::vector<double> LineLevel::within(Range<Seconds> time) const {
    std::vector<double> chosen;
    for (std::size_t i = 0; i < values.size(); ++i)
        if (time.contains(timeOf(i))) chosen.push_back(values[i]);
    return chosen;
}

double LineLevel::at(Seconds time) const {
    if (values.empty()) return 0;
    const auto index = std::llround(ratio(time - first, step));
    return values[static_cast<std::size_t>(std::clamp<std::int64_t>(index, 0, std::ssize(values) - 1))];
}

LineLevel levelOfPitch(const StereoViews& views, std::size_t view, Range<Seconds> time, double hertz) {
    return levelAlong(views, view, time, [hertz](Seconds) { return hertz; });
}

LineLevel levelAlong(const StereoViews& views, std::size_t view, Range<Seconds> time,
                     const std::function<double(Seconds)>& hertzAt) {
    constexpr double highest = 6000, quietBelow = 300;
    constexpr double stevens = 0.6;
    LineLevel level{time.begin, std::vector<double>(placesIn(time))};
    static const SoundAround around(pitchWindow);
    std::vector<float> samples(pitchWindow);
    for (std::size_t i = 0; i < level.values.size(); ++i) {
        around.cut(views.sound(view), views.sampleAt(level.timeOf(i)), samples);
        const double hertz = hertzAt(level.timeOf(i));
        double loudness = 0;
        int count = 0;
        while (count < partials && (count + 1) * hertz < highest)
            ++count;
        const auto amplitudes = amplitudesAt(samples, hertz, count);
        for (int h = 1; h <= count; ++h)
            loudness += std::pow(
                (h * hertz < quietBelow ? 0.4 : 1.0) * amplitudes[static_cast<std::size_t>(h - 1)], stevens);
        level.values[i] = std::pow(loudness, 1 / stevens);
    }
    return level;
}

LineLevel levelOfNoise(const StereoViews& views, std::size_t view, Range<Seconds> time) {
    constexpr double from = 3000, to = 9000;
    static const SoundAround around(noiseWindow);
    RealTransform transform(noiseWindow);
    const auto lineAt = [](double hertz) {
        return static_cast<std::size_t>(hertz * noiseWindow / analysisRate.hertz);
    };
    LineLevel level{time.begin, std::vector<double>(placesIn(time))};
    for (std::size_t i = 0; i < level.values.size(); ++i) {
        around.cut(views.sound(view), views.sampleAt(level.timeOf(i)), transform.time());
        transform.forward();
        double energy = 0;
        for (std::size_t line = lineAt(from); line <= lineAt(to); ++line)
            energy += std::norm(transform.spectrum()[line]);
        level.values[i] = std::sqrt(energy);
    }
    return level;
}

} // namespace earwright
