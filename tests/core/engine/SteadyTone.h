// Sustained tones, and how one tells by their samples whether they step or dip where passes are joined.
#pragma once

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

namespace earwright::tests::steady_tone {

constexpr int rate = 44100;
constexpr double level = 0.5;

/// Partials of one level each, the sum of `level`.
inline std::vector<float> tone(const std::vector<double>& partials, double seconds) {
    std::vector<float> samples(static_cast<std::size_t>(seconds * rate));
    for (std::size_t i = 0; i < samples.size(); ++i)
        for (const double hertz : partials)
            samples[i] += static_cast<float>(level / static_cast<double>(partials.size()) *
                                             std::sin(2 * M_PI * hertz * static_cast<double>(i) / rate));
    return samples;
}

/// The largest step a tone of that level has by itself.
inline float stepOf(double hertz) {
    return static_cast<float>(level * 2 * std::sin(M_PI * hertz / rate));
}

inline float largestStep(std::span<const float> samples) {
    float largest = 0;
    for (std::size_t i = 1; i < samples.size(); ++i)
        largest = std::max(largest, std::abs(samples[i] - samples[i - 1]));
    return largest;
}

/// Amplitude of a tone from a sample and its slope, a quarter of a period apart from each other.
inline double amplitudeAt(std::span<const float> samples, std::size_t at, double hertz) {
    const auto slope = static_cast<double>(samples[at + 1] - samples[at - 1]);
    return std::hypot(static_cast<double>(samples[at]), slope / (2 * std::sin(2 * M_PI * hertz / rate)));
}

inline double lowestAmplitude(std::span<const float> samples, double hertz) {
    double lowest = level;
    for (std::size_t i = 1; i + 1 < samples.size(); ++i)
        lowest = std::min(lowest, amplitudeAt(samples, i, hertz));
    return lowest;
}

/// Milliseconds from the first to the last sample that is weaker.
inline double weakMilliseconds(std::span<const float> samples, double hertz, double amplitude) {
    std::size_t first = samples.size();
    std::size_t last = 0;
    for (std::size_t i = 1; i + 1 < samples.size(); ++i) {
        if (amplitudeAt(samples, i, hertz) >= amplitude) continue;
        first = std::min(first, i);
        last = i + 1;
    }
    return last <= first ? 0 : static_cast<double>(last - first) / rate * 1000;
}

} // namespace earwright::tests::steady_tone
