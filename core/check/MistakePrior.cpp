#include "core/check/MistakePrior.h"

#include <array>
#include <cmath>
#include <cstdlib>

namespace earwright {

namespace {

constexpr float shareRight = 0.75f;
/// By the semitones between what is written and what was played, up to an octave; the rest is farther.
constexpr std::array<float, 13> likely{0, 3, 3, 2, 2, 2, 0.3f, 2, 0.3f, 0.3f, 0.3f, 0.3f, 3};
constexpr float likelyFarther = 0.1f;

float likelyAt(int semitones) {
    const auto apart = static_cast<std::size_t>(std::abs(semitones));
    return apart < likely.size() ? likely[apart] : likelyFarther;
}

} // namespace

PitchRow playedWhereWritten(int writtenMidi) {
    const int written = writtenMidi - lowestHeardMidi;
    PitchRow row;
    float sum = 0;
    for (int pitch = 0; pitch < static_cast<int>(pitchCount); ++pitch)
        sum += likelyAt(pitch - written);
    for (int pitch = 0; pitch < static_cast<int>(pitchCount); ++pitch)
        row[static_cast<std::size_t>(pitch)] =
            std::log(pitch == written ? shareRight : (1 - shareRight) * likelyAt(pitch - written) / sum);
    return row;
}

} // namespace earwright
