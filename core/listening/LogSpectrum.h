// How loud each third of a semitone is in a stretch of sound.
#pragma once

#include "core/listening/AxisLines.h"
#include "core/listening/HannWindow.h"
#include "core/sound/RealTransform.h"

#include <cstddef>
#include <span>
#include <vector>

namespace earwright {

/// Spectra of short stretches on a logarithmic frequency axis.
///
/// Stretches of any length up to the transform's are weighted by a Hann window, so that long notes are
/// resolved finely and short ones sharply: the multi-resolution idea of a constant-Q transform (Brown 1991),
/// with the length chosen by the note and not by the frequency.
/// Threads: one thread at a time an object; objects are independent.
/// Units: a sine of amplitude 1 has magnitude 1; samples at analysisRate.
class LogSpectrum {
public:
    /// fftLength: a power of two. cents: the recording's tuning, which shifts the axis.
    LogSpectrum(std::size_t fftLength, double cents);

    /// Shifts the axis from now on.
    void tune(double cents) { axis.tune(cents); }

    /// The spectrum of sound[start, start + length); what lies outside the sound is silence.
    /// Requires: 2 <= length <= fftLength.
    void of(std::span<const float> sound, std::ptrdiff_t start, std::size_t length, LogBins& out);

private:
    RealTransform transform;
    AxisLines axis;
    HannWindow window;
    std::vector<float> magnitude;
};

} // namespace earwright
