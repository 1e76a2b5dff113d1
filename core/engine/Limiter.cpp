#include "core/engine/Limiter.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr float ceiling = 0.9999f;
constexpr double recoverySeconds = 0.2;

} // namespace

void Limiter::setRate(SampleRate rate) {
    recovery = static_cast<float>(1.0 - std::exp(-1.0 / (recoverySeconds * rate.hertz)));
}

void Limiter::apply(float& left, float& right) {
    gain += recovery * (1.0f - gain);
    const float loudest = std::max(std::abs(left), std::abs(right));
    if (loudest * gain > ceiling) gain = ceiling / loudest;
    left *= gain;
    right *= gain;
}

} // namespace earwright
