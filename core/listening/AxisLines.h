// Where the bins of the logarithmic axis lie among the lines of a transform.
#pragma once

#include "core/listening/LogAxis.h"

#include <array>
#include <cstddef>

namespace earwright {

/// Each bin lies between two lines, in a recording's own tuning.
///
/// Threads: a value; share it const. Units: sound at analysisRate.
class AxisLines {
public:
    AxisLines(std::size_t fftLength, double cents);

    /// Shifts the axis from now on. True if anything moved.
    bool tune(double cents);
    /// The line at or below a bin; the one above is there too.
    std::size_t below(std::size_t bin) const { return line[bin]; }
    /// What a bin has of the magnitudes of the lines below and above it.
    float between(std::size_t bin, float lower, float upper) const {
        const float part = fraction[bin];
        const float mixed = lower + part * (upper - lower);
        const float nearer = (part > 0.5f ? upper : lower) * nearerLineShare;
        return mixed > nearer ? mixed : nearer;
    }

private:
    /// What a bin gets from the nearer line at least, so that a partial between bins is not lost.
    static constexpr float nearerLineShare = 0.9f;

    void lay();

    std::size_t lines;
    double tunedTo;
    std::array<std::size_t, axisBins> line{};
    LogBins fraction{};
};

} // namespace earwright
