#include "core/listening/CentreExtraction.h"

#include "core/listening/WideVectors.h"
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

/// The part of a frame that lies inside a sound.
struct Inside {
    std::size_t begin;
    std::size_t end;

    Inside(std::ptrdiff_t start, std::size_t length)
        : begin(within(-start)), end(within(static_cast<std::ptrdiff_t>(length) - start)) {}

private:
    static std::size_t within(std::ptrdiff_t place) {
        return static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(place, 0, frameLength));
    }
};

/// What lies outside the sound is silence.
void load(RealTransform& transform, std::span<const float> sound, std::ptrdiff_t start,
          const std::vector<float>& window) {
    const auto in = transform.time();
    std::ranges::fill(in, 0.0f);
    const Inside inside(start, sound.size());
    for (std::size_t i = inside.begin; i < inside.end; ++i)
        in[i] = sound[static_cast<std::size_t>(start + static_cast<std::ptrdiff_t>(i))] * window[i];
    transform.forward();
}

/// Turns the left spectrum into that of the centre.
EARWRIGHT_WIDE_VECTORS
void keepCommon(std::span<std::complex<float>> left, std::span<const std::complex<float>> right) {
    for (std::size_t i = 0; i < left.size(); ++i) {
        const float one = std::norm(left[i]);
        const float other = std::norm(right[i]);
        const float similarity = 2 * std::sqrt(one * other) / (one + other + 1e-12f);
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
        const Inside inside(start, left.size());
        for (std::size_t i = inside.begin; i < inside.end; ++i)
            centre[static_cast<std::size_t>(start + static_cast<std::ptrdiff_t>(i))] +=
                one.time()[i] * window[i] * scale;
    }
    return centre;
}

} // namespace earwright
