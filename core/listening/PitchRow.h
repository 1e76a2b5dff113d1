// One number for each pitch: how probable it is, as a natural logarithm.
#pragma once

#include "core/listening/LogAxis.h"

#include <array>
#include <cstddef>
#include <span>

namespace earwright {

/// Log probabilities of the pitches lowestHeardMidi…highestHeardMidi.
struct PitchRow {
    std::array<float, pitchCount> log{};

    float& operator[](std::size_t pitch) { return log[pitch]; }
    float operator[](std::size_t pitch) const { return log[pitch]; }

    /// Shifts all so that the probabilities add up to one.
    void normalise();
    /// Index of the most probable pitch.
    std::size_t best() const;
    /// How far a pitch stands above the best of the others (negative: below it), at most ±12.
    float leadOf(std::size_t pitch) const;
};

/// Shifts log probabilities so that they add up to one.
void normaliseLog(std::span<float> log);
/// log(Σ exp(x)), safe for large numbers. Requires: not empty.
float logSumExp(std::span<const float> log);

} // namespace earwright
