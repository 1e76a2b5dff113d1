#include "core/listening/LineLevel.h"

#include "core/sound/RealTransform.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace earwright {

namespace {

constexpr std::ptrdiff_t pitchWindow = 512;
constexpr std::ptrdiff_t noiseWindow = 256;

float hann(std::ptrdiff_t index, std::ptrdiff_t length) {
    return static_cast<float>(0.5 - 0.5 * std::cos(2 * std::numbers::pi * (static_cast<double>(index) + 0.5) /
                                                   static_cast<double>(length)));
}

std::size_t placesIn(Range<Seconds> time) {
    return time.isEmpty() ? 0 : static_cast<std::size_t>(std::ceil(ratio(time.length(), LineLevel::step)));
}

/// The windowed sound around a place; silence outside the sound.
void windowed(std::span<const float> sound, std::ptrdiff_t centre, std::span<float> out) {
    const auto length = std::ssize(out);
    for (std::ptrdiff_t i = 0; i < length; ++i) {
        const std::ptrdiff_t at = centre - length / 2 + i;
        const bool inside = at >= 0 && at < std::ssize(sound);
        out[static_cast<std::size_t>(i)] = inside ? sound[static_cast<std::size_t>(at)] * hann(i, length) : 0;
    }
}

/// Amplitude at one frequency (Goertzel's recursion, Amer. Math. Monthly 65, 1958).
double amplitudeAt(std::span<const float> samples, double hertz) {
    const double angle = 2 * std::numbers::pi * hertz / analysisRate.hertz;
    const double factor = 2 * std::cos(angle);
    double one = 0, two = 0;
    for (const float sample : samples) {
        const double next = sample + factor * one - two;
        two = one;
        one = next;
    }
    return std::sqrt(std::max(0.0, one * one + two * two - factor * one * two));
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
    constexpr int partials = 8;
    constexpr double highest = 6000, quietBelow = 300;
    constexpr double stevens = 0.6;
    LineLevel level{time.begin, std::vector<double>(placesIn(time))};
    std::vector<float> samples(pitchWindow);
    for (std::size_t i = 0; i < level.values.size(); ++i) {
        windowed(views.sound(view), views.sampleAt(level.timeOf(i)), samples);
        const double hertz = hertzAt(level.timeOf(i));
        double loudness = 0;
        for (int h = 1; h <= partials && h * hertz < highest; ++h) {
            const double amplitude = (h * hertz < quietBelow ? 0.4 : 1.0) * amplitudeAt(samples, h * hertz);
            loudness += std::pow(amplitude, stevens);
        }
        level.values[i] = std::pow(loudness, 1 / stevens);
    }
    return level;
}

LineLevel levelOfNoise(const StereoViews& views, std::size_t view, Range<Seconds> time) {
    constexpr double from = 3000, to = 9000;
    RealTransform transform(noiseWindow);
    const auto lineAt = [](double hertz) {
        return static_cast<std::size_t>(hertz * noiseWindow / analysisRate.hertz);
    };
    LineLevel level{time.begin, std::vector<double>(placesIn(time))};
    for (std::size_t i = 0; i < level.values.size(); ++i) {
        windowed(views.sound(view), views.sampleAt(level.timeOf(i)), transform.time());
        transform.forward();
        double energy = 0;
        for (std::size_t line = lineAt(from); line <= lineAt(to); ++line)
            energy += std::norm(transform.spectrum()[line]);
        level.values[i] = std::sqrt(energy);
    }
    return level;
}

} // namespace earwright
