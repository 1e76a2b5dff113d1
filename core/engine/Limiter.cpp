#include "core/engine/Limiter.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr float ceiling = 0.9999f;
constexpr double recoverySeconds = 0.2;
/// −1 dBFS.
constexpr float bend = 0.8913f;

/// Where the bent line has nearly reached full scale.
constexpr float mostBent = 1.15f;

float bent(float sample) {
    const float height = std::abs(sample);
    if (height <= bend) return sample;
    constexpr float room = ceiling - bend;
    return std::copysign(bend + room * std::tanh((height - bend) / room), sample);
}

} // namespace

void Limiter::setRate(SampleRate rate) {
    recovery = static_cast<float>(1.0 - std::exp(-1.0 / (recoverySeconds * rate.hertz)));
}

void Limiter::apply(float& left, float& right, float softness) {
    gain += recovery * (1.0f - gain);
    const float loudest = std::max(std::abs(left), std::abs(right));
    const float most = ceiling + softness * (mostBent - ceiling);
    if (loudest * gain > most) gain = most / loudest;
    left *= gain;
    right *= gain;
    if (softness <= 0) return;
    // On the way from one to the other the two ways do not quite meet: nothing leaves full scale then either.
    left = std::clamp(left + softness * (bent(left) - left), -ceiling, ceiling);
    right = std::clamp(right + softness * (bent(right) - right), -ceiling, ceiling);
}

} // namespace earwright
