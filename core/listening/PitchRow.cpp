#include "core/listening/PitchRow.h"

#include "core/listening/QuickLog.h"
#include "core/listening/WideVectors.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace earwright {

EARWRIGHT_WIDE_VECTORS
float logSumExp(std::span<const float> log) {
    // What is less probable than the likeliest by e^80 adds nothing. Named first, it stands for no number,
    // too.
    constexpr float least = -80;
    const float top = *std::max_element(log.begin(), log.end());
    std::array<float, wideSize> sums{};
    const std::size_t whole = log.size() / wideSize * wideSize;
    for (std::size_t i = 0; i < whole; i += wideSize)
        for (std::size_t lane = 0; lane < wideSize; ++lane)
            sums[lane] += quickExp(std::max(least, log[i + lane] - top));
    for (std::size_t i = whole; i < log.size(); ++i)
        sums[i - whole] += quickExp(std::max(least, log[i] - top));
    double sum = 0;
    for (const float part : sums)
        sum += part;
    return top + static_cast<float>(std::log(sum));
}

void normaliseLog(std::span<float> log) {
    const float total = logSumExp(log);
    for (float& value : log)
        value -= total;
}

void PitchRow::normalise() {
    normaliseLog(log);
}

std::size_t PitchRow::best() const {
    return static_cast<std::size_t>(std::max_element(log.begin(), log.end()) - log.begin());
}

float PitchRow::leadOf(std::size_t pitch) const {
    constexpr float farthest = 12;
    float other = -std::numeric_limits<float>::infinity();
    for (std::size_t i = 0; i < pitchCount; ++i)
        if (i != pitch) other = std::max(other, log[i]);
    return std::clamp(log[pitch] - other, -farthest, farthest);
}

} // namespace earwright
