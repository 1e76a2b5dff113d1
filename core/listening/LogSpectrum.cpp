#include "core/listening/LogSpectrum.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace earwright {

LogSpectrum::LogSpectrum(std::size_t fftLength, double cents)
    : transform(fftLength), axis(fftLength, cents), magnitude(fftLength / 2 + 1) {}

void LogSpectrum::of(std::span<const float> sound, std::ptrdiff_t start, std::size_t length, LogBins& out) {
    const std::span<float> input = transform.time();
    assert(length >= 2 && length <= input.size());
    const std::span<const float> weights = window.of(length);
    const auto wanted = static_cast<std::ptrdiff_t>(length);
    const std::ptrdiff_t from = std::clamp<std::ptrdiff_t>(-start, 0, wanted);
    const std::ptrdiff_t to =
        std::clamp<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(sound.size()) - start, from, wanted);
    std::fill(input.begin(), input.end(), 0.0f);
    for (std::ptrdiff_t i = from; i < to; ++i)
        input[static_cast<std::size_t>(i)] =
            sound[static_cast<std::size_t>(start + i)] * weights[static_cast<std::size_t>(i)];
    transform.forward();
    std::transform(transform.spectrum().begin(), transform.spectrum().end(), magnitude.begin(),
                   [](const std::complex<float>& x) { return std::sqrt(std::norm(x)); });
    for (std::size_t bin = 0; bin < axisBins; ++bin)
        out[bin] = axis.between(bin, magnitude[axis.below(bin)], magnitude[axis.below(bin) + 1]);
}

} // namespace earwright
