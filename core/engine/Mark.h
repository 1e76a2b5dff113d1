// A short sound that is found again to the sample, in what a microphone or a cable brings back.
#pragma once

#include "core/time/SampleRate.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace earwright {

/// A sweep from 600 to 6000 Hz in 40 ms, rounded off at both ends: loud enough together to stand out of noise
/// and short enough not to annoy; what small headphones and microphones do to lows and highs does not touch
/// it. Its correlation with itself is a peak of 0.2 ms (pulse compression, as in radar; e.g. Farina,
/// "Simultaneous measurement of impulse response and distortion with a swept-sine technique", AES 108, 2000).
class Mark {
public:
    static constexpr double seconds = 0.04;
    static constexpr float loudness = 0.25f;

    static std::size_t frames(SampleRate rate);
    /// Sample `frame` of it. Real time safe.
    static float sampleAt(std::size_t frame, SampleRate rate);

    struct Found {
        /// Where the mark begins, in frames from the start of what was searched.
        std::size_t at = 0;
        /// Share of the sound there that is the mark, −1 to 1; below zero it is turned upside down.
        double likeness = 0;
    };
    /// Looks for one mark. Nothing where no place is like it (less than 0.3) or several are.
    static std::optional<Found> find(std::span<const float> mono, SampleRate rate);
};

} // namespace earwright
