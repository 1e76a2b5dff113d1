#include "core/engine/FocusMatrix.h"

#include <cstddef>

namespace earwright {

namespace {

constexpr double moveSeconds = 0.01;

using Weights = std::array<float, 4>;

// Mid and side of a stereo pair are half its sum and half its difference (common practice).
Weights weightsOf(Focus focus) {
    constexpr Weights all{1, 0, 0, 1};
    switch (focus) {
    case Focus::All:
        return all;
    case Focus::Left:
        return {1, 0, 1, 0};
    case Focus::Right:
        return {0, 1, 0, 1};
    case Focus::Centre:
        return {0.5f, 0.5f, 0.5f, 0.5f};
    case Focus::Sides:
        return {0.5f, -0.5f, 0.5f, -0.5f};
    }
    return all;
}

} // namespace

void FocusMatrix::setRate(SampleRate rate) {
    for (Slew& weight : weights)
        weight.setFrames(static_cast<float>(moveSeconds * rate.hertz));
}

void FocusMatrix::aim(Focus focus) {
    const Weights wanted = weightsOf(focus);
    for (std::size_t i = 0; i < weights.size(); ++i)
        weights[i].aimAt(wanted[i]);
}

void FocusMatrix::apply(float& left, float& right) {
    const float toLeft = weights[0].next() * left + weights[1].next() * right;
    right = weights[2].next() * left + weights[3].next() * right;
    left = toLeft;
}

} // namespace earwright
