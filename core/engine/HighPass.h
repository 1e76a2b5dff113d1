// Leaves what lies above a frequency, steeply and without delaying the beginning of anything.
#pragma once

#include "core/time/SampleRate.h"

#include <array>
#include <cstddef>

namespace earwright {

/// A Butterworth high-pass of the fourth order as two sections of the second (coefficients: Bristow-Johnson,
/// "Cookbook formulae for audio equalizer biquad filter coefficients"): −3 dB at the frequency, −24 dB an
/// octave below.
class HighPass {
public:
    /// Lets everything through.
    HighPass() = default;
    /// hertz: above 0, held below 0.45 of the rate.
    HighPass(double hertz, SampleRate rate);

    float next(float sample) {
        for (Section& section : sections)
            sample = section.next(sample);
        return sample;
    }

private:
    struct Section {
        float ahead = 1;
        float middle = 0;
        float back1 = 0;
        float back2 = 0;
        float kept1 = 0;
        float kept2 = 0;
        /// A high-pass of the second order: its numerator is symmetrical.
        float next(float sample) {
            const float out = ahead * sample + kept1;
            kept1 = middle * sample - back1 * out + kept2;
            kept2 = (middle == 0.0f ? 0.0f : ahead * sample) - back2 * out;
            return out;
        }
    };
    std::array<Section, 2> sections{};
};

} // namespace earwright
