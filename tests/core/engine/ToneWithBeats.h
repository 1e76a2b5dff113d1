// A tone and beats to go round in: what the tests of passes, gaps and count-ins play.
#pragma once

#include "core/engine/BeatPlace.h"
#include "core/time/SampleRate.h"
#include "tests/core/engine/HeldRecording.h"

#include <cmath>
#include <memory>
#include <vector>

namespace earwright::tests::tone_with_beats {

constexpr SampleRate rate{44100};

/// A tone of 441 Hz, a hundred frames a period.
inline std::shared_ptr<Recording> tone() {
    std::vector<float> samples(static_cast<std::size_t>(6 * rate.hertz));
    for (std::size_t i = 0; i < samples.size(); ++i)
        samples[i] = 0.5f * static_cast<float>(std::sin(2 * M_PI * static_cast<double>(i) / 100));
    return held(samples, rate.hertz);
}

/// Beats of half a second over all of it, four to a bar.
inline std::vector<BeatPlace> beats() {
    std::vector<BeatPlace> places;
    for (int beat = 0; beat < 12; ++beat)
        places.push_back({Frames(beat * 22050), beat % 4 == 0});
    return places;
}

} // namespace earwright::tests::tone_with_beats
