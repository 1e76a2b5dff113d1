// What the tests of the written notes' voice pluck with, and measure by.
#pragma once

#include "core/engine/PluckedString.h"
#include "core/engine/StringGesture.h"
#include "tests/core/engine/HeldRecording.h"

#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

namespace earwright::tests {

inline constexpr int rate = 44100;

inline StringGesture plain(double pitch, double loudness = 0.6, double seconds = 2.0) {
    StringGesture gesture;
    gesture.pitch = pitch;
    gesture.loudness = loudness;
    gesture.seconds = seconds;
    return gesture;
}

inline std::vector<float> sounded(const StringGesture& gesture, double seconds, int hertz = rate) {
    PluckedString string;
    string.setRate(SampleRate{hertz});
    string.pluck(gesture);
    std::vector<float> out(static_cast<std::size_t>(seconds * hertz), 0.0f);
    string.render(out);
    return out;
}

inline std::span<const float> between(const std::vector<float>& samples, double from, double to,
                                      int hertz = rate) {
    const auto first = static_cast<std::size_t>(from * hertz);
    return std::span(samples).subspan(first, static_cast<std::size_t>((to - from) * hertz));
}

inline double decibels(std::span<const float> samples) {
    return 20 * std::log10(rootMeanSquare(samples) + 1e-9);
}

} // namespace earwright::tests
