#include "core/listening/AxisLines.h"

#include "core/listening/AnalysisSound.h"

#include <algorithm>
#include <cmath>

namespace earwright {

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
    const double linesPerHertz = 2 * static_cast<double>(lines) / analysisRate.hertz;
    for (std::size_t bin = 0; bin < axisBins; ++bin) {
        const double midi = axisLowestMidi + static_cast<double>(bin) / binsPerSemitone + tunedTo / 100;
        const double place = 440.0 * std::exp2((midi - 69) / 12) * linesPerHertz;
        line[bin] = std::min(static_cast<std::size_t>(place), lines - 1);
        fraction[bin] = static_cast<float>(place - static_cast<double>(line[bin]));
    }
}

} // namespace earwright
