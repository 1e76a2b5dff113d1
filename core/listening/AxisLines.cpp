#include "core/listening/AxisLines.h"

#include "core/listening/AnalysisSound.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// Where the bins lie at A = 440 Hz, in hertz.
const std::array<double, axisBins>& untunedBins() {
    static const std::array<double, axisBins> bins = [] {
        std::array<double, axisBins> hertz;
        for (std::size_t bin = 0; bin < axisBins; ++bin)
            hertz[bin] =
                440.0 * std::exp2((axisLowestMidi + static_cast<double>(bin) / binsPerSemitone - 69) / 12);
        return hertz;
    }();
    return bins;
}

} // namespace

AxisLines::AxisLines(std::size_t fftLength, double cents) : lines(fftLength / 2), tunedTo(cents) {
    lay();
}

bool AxisLines::tune(double cents) {
    // A third of what the finest bin resolves moves nothing.
    constexpr double noticeable = 0.25;
    if (std::abs(cents - tunedTo) < noticeable) return false;
    tunedTo = cents;
    lay();
    return true;
}

void AxisLines::lay() {
    const double linesPerHertz =
        2 * static_cast<double>(lines) / analysisRate.hertz * std::exp2(tunedTo / 1200);
    for (std::size_t bin = 0; bin < axisBins; ++bin) {
        const double place = untunedBins()[bin] * linesPerHertz;
        line[bin] = std::min(static_cast<std::size_t>(place), lines - 1);
        fraction[bin] = static_cast<float>(place - static_cast<double>(line[bin]));
    }
}

} // namespace earwright
