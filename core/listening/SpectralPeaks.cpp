#include "core/listening/SpectralPeaks.h"

#include "core/listening/AnalysisSound.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace earwright {

namespace {

constexpr std::size_t fftLength = 2 * PeakFinder::stretch;
/// Lines on either side whose geometric mean is the surroundings of a line: 135 Hz.
constexpr std::size_t reach = 50;
/// 15.6 dB.
const double clearance = std::log(6.0);

} // namespace

PeakFinder::PeakFinder() : transform(fftLength), logs(fftLength / 2 + 1), sums(fftLength / 2 + 2) {}

std::vector<SpectralPeak> PeakFinder::peaks(std::span<const float> sound, double fromHertz, double toHertz) {
    assert(sound.size() <= stretch);
    const auto in = transform.time();
    std::fill(in.begin(), in.end(), 0.0f);
    const double step =
        2 * std::numbers::pi / static_cast<double>(std::max<std::size_t>(sound.size(), 2) - 1);
    for (std::size_t i = 0; i < sound.size(); ++i)
        in[i] = sound[i] * static_cast<float>(0.5 - 0.5 * std::cos(step * static_cast<double>(i)));
    transform.forward();
    for (std::size_t i = 0; i < logs.size(); ++i) {
        logs[i] = std::log(static_cast<double>(std::abs(transform.spectrum()[i])) + 1e-9);
        sums[i + 1] = sums[i] + logs[i];
    }
    const double hertzPerLine = static_cast<double>(analysisRate.hertz) / fftLength;
    const auto first = std::max(static_cast<std::size_t>(fromHertz / hertzPerLine), reach);
    const auto last = std::min(static_cast<std::size_t>(toHertz / hertzPerLine), logs.size() - reach - 2);
    std::vector<SpectralPeak> found;
    for (std::size_t i = first; i <= last; ++i) {
        const double a = logs[i - 1];
        const double b = logs[i];
        const double c = logs[i + 1];
        if (!(b > a && b >= c)) continue;
        const double around = (sums[i + reach + 1] - sums[i - reach]) / (2 * reach + 1);
        if (b < around + clearance) continue;
        const double offset = 0.5 * (a - c) / (a - 2 * b + c - 1e-12);
        found.push_back({(static_cast<double>(i) + offset) * hertzPerLine, std::exp(b)});
    }
    return found;
}

} // namespace earwright
