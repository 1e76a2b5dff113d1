// What every real recording has in its treble, for sounds that have nothing there.
#pragma once

#include <cstdint>

namespace earwright {

/// White noise of half a 16-bit step, −96 dB at its peaks: far below what is heard.
///
/// RubberBand's finer engine sorts the bins of its spectra into harmonic, percussive and other ones, whatever
/// their level, and takes all phases anew from the source wherever percussive ones fill more than 4 kHz of
/// the treble. Where a recording has no treble, what is sorted there are rounding errors at −150 dB, which
/// swell with each period of a low tone and so pass for percussion: the phases of a sustained 110 Hz tone
/// were reset many times a second, partials that the resets did not happen to fit fell by up to 15 dB and
/// wavered by up to 50 cents. Noise that does not swell ends that, from −110 dB on. Both channels are given
/// the same, so that what was mono stays so.
///
/// Threads: a plain value. Deterministic.
class FaintHiss {
public:
    float next() {
        // Numerical Recipes' quick generator; its upper 24 bits as −1 to 1.
        state = state * 1664525u + 1013904223u;
        return (static_cast<float>(state >> 8) / 8388608.0f - 1.0f) * peak;
    }

private:
    static constexpr float peak = 1.0f / 65536.0f;
    std::uint32_t state = 1;
};

} // namespace earwright
