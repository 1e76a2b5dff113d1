#include "core/listening/LogSpectrum.h"

#include "core/listening/AnalysisSound.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace earwright {

namespace {

/// What a bin gets from the nearer line at least, so that a partial between bins is not lost.
constexpr float nearerLineShare = 0.9f;

} // namespace

LogSpectrum::LogSpectrum(std::size_t fftLength, double cents)
    : transform(fftLength), lines(fftLength / 2), tunedTo(cents), magnitude(fftLength / 2 + 1) {
    layAxis();
}

void LogSpectrum::tune(double cents) {
    // A third of what the finest bin resolves moves nothing.
    constexpr double noticeable = 0.25;
    if (std::abs(cents - tunedTo) < noticeable) return;
    tunedTo = cents;
    layAxis();
}

void LogSpectrum::layAxis() {
    const double linesPerHertz = 2 * static_cast<double>(lines) / analysisRate.hertz;
    for (std::size_t bin = 0; bin < axisBins; ++bin) {
        const double midi = axisLowestMidi + static_cast<double>(bin) / binsPerSemitone + tunedTo / 100;
        const double place = 440.0 * std::exp2((midi - 69) / 12) * linesPerHertz;
        line[bin] = std::min(static_cast<std::size_t>(place), lines - 1);
        fraction[bin] = static_cast<float>(place - static_cast<double>(line[bin]));
    }
}

void LogSpectrum::makeWindow(std::size_t length) {
    if (window.size() == length) return;
    window.resize(length);
    // Four over the length: the window's sum is half its length, and a sine puts half of itself in its line.
    const double scale = 4.0 / static_cast<double>(length);
    const double step = 2 * std::numbers::pi / static_cast<double>(length - 1);
    // Eight turning points side by side instead of a cosine a sample; the two halves mirror each other.
    constexpr std::size_t lanes = 8;
    std::array<double, lanes> x;
    std::array<double, lanes> y;
    for (std::size_t lane = 0; lane < lanes; ++lane) {
        x[lane] = std::cos(step * static_cast<double>(lane));
        y[lane] = std::sin(step * static_cast<double>(lane));
    }
    const double turnX = std::cos(step * lanes);
    const double turnY = std::sin(step * lanes);
    for (std::size_t i = 0; i < (length + 1) / 2; i += lanes) {
        for (std::size_t lane = 0; lane < std::min(lanes, length - i); ++lane)
            window[i + lane] = window[length - 1 - i - lane] =
                static_cast<float>(scale * (0.5 - 0.5 * x[lane]));
        for (std::size_t lane = 0; lane < lanes; ++lane) {
            const double turned = x[lane] * turnX - y[lane] * turnY;
            y[lane] = x[lane] * turnY + y[lane] * turnX;
            x[lane] = turned;
        }
    }
}

void LogSpectrum::of(std::span<const float> sound, std::ptrdiff_t start, std::size_t length, LogBins& out) {
    const std::span<float> input = transform.time();
    assert(length >= 2 && length <= input.size());
    makeWindow(length);
    const auto wanted = static_cast<std::ptrdiff_t>(length);
    const std::ptrdiff_t from = std::clamp<std::ptrdiff_t>(-start, 0, wanted);
    const std::ptrdiff_t to =
        std::clamp<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(sound.size()) - start, from, wanted);
    std::fill(input.begin(), input.end(), 0.0f);
    for (std::ptrdiff_t i = from; i < to; ++i)
        input[static_cast<std::size_t>(i)] =
            sound[static_cast<std::size_t>(start + i)] * window[static_cast<std::size_t>(i)];
    transform.forward();
    std::transform(transform.spectrum().begin(), transform.spectrum().end(), magnitude.begin(),
                   [](const std::complex<float>& x) { return std::sqrt(std::norm(x)); });
    for (std::size_t bin = 0; bin < axisBins; ++bin) {
        const float below = magnitude[line[bin]];
        const float above = magnitude[line[bin] + 1];
        const float between = below + fraction[bin] * (above - below);
        out[bin] = std::max(between, (fraction[bin] > 0.5f ? above : below) * nearerLineShare);
    }
}

} // namespace earwright
