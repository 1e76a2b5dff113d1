#include "core/listening/PitchStrength.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace earwright {

namespace {

/// Weaker pitches would be specks, and were all 69 alike, one in 69 each, they would fill the column.
constexpr double weakest = 0.15;
/// Below this a pitch is hardly seen, and a choice between it and another would say more than there is.
constexpr double weakestRival = 0.2;
/// In flat evidence any two pitches are alike; only two that outweigh all else together are a choice of
/// octave.
constexpr double probabilityOfRivals = 0.5;

std::vector<PitchStrength> octavesOf(int name, const std::vector<PitchStrength>& pitches) {
    std::vector<PitchStrength> octaves;
    for (const PitchStrength& pitch : pitches)
        if (pitch.midi % 12 == name && pitch.strength >= weakestRival) octaves.push_back(pitch);
    return octaves;
}

/// Probability that it is one of the two likeliest. Requires: two or more.
double likeliestTwo(const std::vector<PitchStrength>& octaves) {
    double first = 0, second = 0;
    for (const PitchStrength& octave : octaves) {
        second = std::max(second, std::min(first, octave.probability()));
        first = std::max(first, octave.probability());
    }
    return first + second;
}

} // namespace

std::vector<PitchStrength> strengthsOf(const PitchRow& row) {
    std::vector<PitchStrength> pitches;
    for (std::size_t i = 0; i < pitchCount; ++i) {
        const double strength = std::exp(static_cast<double>(row[i]) / 2);
        if (strength >= weakest) pitches.push_back({lowestHeardMidi + static_cast<int>(i), strength});
    }
    return pitches;
}

std::vector<PitchStrength> octaveRivals(const std::vector<PitchStrength>& pitches) {
    for (int name = 0; name < 12; ++name) {
        std::vector<PitchStrength> octaves = octavesOf(name, pitches);
        if (octaves.size() > 1 && likeliestTwo(octaves) >= probabilityOfRivals) return octaves;
    }
    return {};
}

} // namespace earwright
