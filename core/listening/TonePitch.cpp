#include "core/listening/TonePitch.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace earwright {

namespace {

/// The paper has 0.1 to 0.15.
constexpr float dipThreshold = 0.12f;

std::size_t longestLag(SampleRate rate) {
    return static_cast<std::size_t>(rate.hertz / lowestTone);
}

/// The paper's equations 6 and 8: how much the sound differs from itself so many samples later, over the mean
/// of all shorter lags. The first is 1.
std::vector<float> normalisedDifference(std::span<const float> samples, std::size_t longest) {
    const std::size_t compared = samples.size() - longest;
    std::vector<float> difference(longest + 1, 0.0f);
    // The inner loop goes over lags, each with a sum of its own, so that it can be done four at a time.
    for (std::size_t i = 0; i < compared; ++i) {
        const float here = samples[i];
        const float* later = samples.data() + i;
        for (std::size_t lag = 0; lag <= longest; ++lag) {
            const float apart = here - later[lag];
            difference[lag] += apart * apart;
        }
    }
    double sum = 0;
    difference[0] = 1;
    for (std::size_t lag = 1; lag <= longest; ++lag) {
        sum += static_cast<double>(difference[lag]);
        const double mean = sum / static_cast<double>(lag);
        difference[lag] = mean > 0 ? static_cast<float>(static_cast<double>(difference[lag]) / mean) : 1.0f;
    }
    return difference;
}

/// The bottom of the first dip that is deep enough, else of the deepest.
std::size_t dip(const std::vector<float>& difference, std::size_t shortest) {
    for (std::size_t lag = shortest; lag + 1 < difference.size(); ++lag) {
        if (difference[lag] >= dipThreshold) continue;
        while (lag + 2 < difference.size() && difference[lag + 1] < difference[lag])
            ++lag;
        return lag;
    }
    const auto deepest =
        std::min_element(difference.begin() + static_cast<std::ptrdiff_t>(shortest), difference.end() - 1);
    return static_cast<std::size_t>(deepest - difference.begin());
}

/// Where a parabola through the dip and its neighbours is lowest.
double refined(const std::vector<float>& difference, std::size_t lag) {
    const auto before = static_cast<double>(difference[lag - 1]);
    const auto here = static_cast<double>(difference[lag]);
    const auto after = static_cast<double>(difference[lag + 1]);
    const double bend = before - 2 * here + after;
    const double aside = bend > 0 ? (before - after) / (2 * bend) : 0;
    return static_cast<double>(lag) + std::clamp(aside, -1.0, 1.0);
}

} // namespace

std::size_t toneWindow(SampleRate rate) {
    return 2 * longestLag(rate);
}

std::optional<TonePitch> tonePitch(std::span<const float> samples, SampleRate rate) {
    const std::size_t window = toneWindow(rate);
    if (samples.size() < window || window < 8) return std::nullopt;
    const auto recent = samples.last(window);
    if (std::all_of(recent.begin(), recent.end(), [](float sample) { return sample == 0.0f; }))
        return std::nullopt;
    const std::vector<float> difference = normalisedDifference(recent, longestLag(rate));
    const auto shortest = std::max<std::size_t>(2, static_cast<std::size_t>(rate.hertz / highestTone));
    if (shortest + 2 >= difference.size()) return std::nullopt;
    const std::size_t lag = dip(difference, shortest);
    const double hertz = rate.hertz / refined(difference, lag);
    const double clarity = std::clamp(1.0 - static_cast<double>(difference[lag]), 0.0, 1.0);
    return TonePitch{69 + 12 * std::log2(hertz / 440), clarity};
}

} // namespace earwright
