// The clear partials of a stretch of sound, with frequencies between the lines of the transform.
#pragma once

#include "core/sound/RealTransform.h"

#include <span>
#include <vector>

namespace earwright {

/// One partial.
struct SpectralPeak {
    double hertz;
    double magnitude;
};

/// Finds partials in stretches of `stretch` samples at analysisRate.
///
/// Threads: one thread at a time an object.
class PeakFinder {
public:
    static constexpr std::size_t stretch = 4096;

    PeakFinder();
    /// Local maxima between two frequencies that stand 15 dB above their surroundings, placed by a parabola
    /// through three log magnitudes (Smith and Serra 1987). Requires: at most `stretch` samples.
    std::vector<SpectralPeak> peaks(std::span<const float> sound, double fromHertz, double toHertz);

private:
    RealTransform transform;
    std::vector<double> logs;
    std::vector<double> sums;
};

} // namespace earwright
