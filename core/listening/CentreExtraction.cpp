#include "core/listening/CentreExtraction.h"

#include "core/sound/RealTransform.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <cstddef>
#include <numbers>

namespace earwright {

namespace {

constexpr std::size_t frameLength = 2048;
constexpr std::size_t hop = frameLength / 4;
/// Levels that agree less than this are taken to stand at a side.
constexpr float leastSimilarity = 0.6f;

std::vector<float> hann() {
    std::vector<float> window(frameLength);
    for (std::size_t i = 0; i < frameLength; ++i)
        window[i] = static_cast<float>(
            0.5 - 0.5 * std::cos(2 * std::numbers::pi * static_cast<double>(i) / frameLength));
    return window;
}

void load(RealTransform& transform, std::span<const float> sound, std::ptrdiff_t start,
          const std::vector<float>& window) {
    const auto in = transform.time();
    for (std::size_t i = 0; i < frameLength; ++i) {
        const std::ptrdiff_t at = start + static_cast<std::ptrdiff_t>(i);
        const bool inside = at >= 0 && at < static_cast<std::ptrdiff_t>(sound.size());
        in[i] = inside ? sound[static_cast<std::size_t>(at)] * window[i] : 0;
    }
    transform.forward();
}

/// Turns the left spectrum into that of the centre.
void keepCommon(std::span<std::complex<float>> left, std::span<const std::complex<float>> right) {
    for (std::size_t i = 0; i < left.size(); ++i) {
        const float similarity =
            2 * std::abs(left[i] * right[i]) / (std::norm(left[i]) + std::norm(right[i]) + 1e-12f);
        const float gain = std::clamp((similarity - leastSimilarity) / (1 - leastSimilarity), 0.0f, 1.0f);
        left[i] = 0.5f * gain * (left[i] + right[i]);
    }
}

} // namespace

std::vector<float> centreOf(std::span<const float> left, std::span<const float> right) {
    // Squared Hann windows a quarter apart add up to 3/2; the transform pair multiplies by its length.
    constexpr float scale = 2.0f / 3.0f / static_cast<float>(frameLength);
    const std::vector<float> window = hann();
    RealTransform one(frameLength);
    RealTransform other(frameLength);
    std::vector<float> centre(left.size(), 0.0f);
    const auto length = static_cast<std::ptrdiff_t>(left.size());
    for (auto start = -static_cast<std::ptrdiff_t>(frameLength - hop); start < length;
         start += static_cast<std::ptrdiff_t>(hop)) {
        load(one, left, start, window);
        load(other, right, start, window);
        keepCommon(one.spectrum(), other.spectrum());
        one.backward();
        for (std::size_t i = 0; i < frameLength; ++i) {
            const std::ptrdiff_t at = start + static_cast<std::ptrdiff_t>(i);
            if (at >= 0 && at < length)
                centre[static_cast<std::size_t>(at)] += one.time()[i] * window[i] * scale;
        }
    }
    return centre;
}

} // namespace earwright
