#include "core/listening/PitchRow.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace earwright {

float logSumExp(std::span<const float> log) {
    const float top = *std::max_element(log.begin(), log.end());
    double sum = 0;
    for (const float value : log)
        sum += std::exp(static_cast<double>(value - top));
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
