#include "core/listening/LineLevel.h"

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

/// Cosines take longer than all else that is done with a sample.
template <std::size_t Length>
const std::array<float, Length>& hann() {
    static const std::array<float, Length> window = [] {
        std::array<float, Length> values{};
        for (std::size_t i = 0; i < Length; ++i)
            values[i] = static_cast<float>(
                0.5 - 0.5 * std::cos(2 * std::numbers::pi * (static_cast<double>(i) + 0.5) /
                                     static_cast<double>(Length)));
        return values;
    }();
    return window;
}

std::size_t placesIn(Range<Seconds> time) {
    return time.isEmpty() ? 0 : static_cast<std::size_t>(std::ceil(ratio(time.length(), LineLevel::step)));
}

/// The windowed sound around a place; silence outside the sound.
void windowed(std::span<const float> sound, std::ptrdiff_t centre, std::span<const float> window,
              std::span<float> out) {
    const auto length = std::ssize(out);
    for (std::ptrdiff_t i = 0; i < length; ++i) {
        const std::ptrdiff_t at = centre - length / 2 + i;
        const auto place = static_cast<std::size_t>(i);
        const bool inside = at >= 0 && at < std::ssize(sound);
        out[place] = inside ? sound[static_cast<std::size_t>(at)] * window[place] : 0;
    }
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
    std::vector<float> samples(pitchWindow);
    for (std::size_t i = 0; i < level.values.size(); ++i) {
        windowed(views.sound(view), views.sampleAt(level.timeOf(i)), hann<pitchWindow>(), samples);
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
    RealTransform transform(noiseWindow);
    const auto lineAt = [](double hertz) {
        return static_cast<std::size_t>(hertz * noiseWindow / analysisRate.hertz);
    };
    LineLevel level{time.begin, std::vector<double>(placesIn(time))};
    for (std::size_t i = 0; i < level.values.size(); ++i) {
        windowed(views.sound(view), views.sampleAt(level.timeOf(i)), hann<noiseWindow>(), transform.time());
        transform.forward();
        double energy = 0;
        for (std::size_t line = lineAt(from); line <= lineAt(to); ++line)
            energy += std::norm(transform.spectrum()[line]);
        level.values[i] = std::sqrt(energy);
    }
    return level;
}

} // namespace earwright
