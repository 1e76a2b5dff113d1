#include "tests/core/engine/HeldRecording.h"

#include <algorithm>
#include <cmath>
#include <complex>

namespace earwright::tests {

HeldRecording::HeldRecording(std::vector<float> interleaved, int rate, int channels)
    : samples(std::move(interleaved)), fileRate{rate}, channelCount(channels) {}

Frames HeldRecording::length() const {
    return Frames(static_cast<std::int64_t>(samples.size()) / channelCount);
}

Frames HeldRecording::read(Frames from, std::span<float> interleaved) {
    std::fill(interleaved.begin(), interleaved.end(), 0.0f);
    const std::int64_t begin = from.value * channelCount;
    const auto end = static_cast<std::int64_t>(interleaved.size()) + begin;
    const std::int64_t first = std::clamp<std::int64_t>(begin, 0, static_cast<std::int64_t>(samples.size()));
    const std::int64_t last = std::clamp<std::int64_t>(end, first, static_cast<std::int64_t>(samples.size()));
    std::copy(samples.begin() + first, samples.begin() + last, interleaved.begin() + (first - begin));
    return Frames((last - first) / channelCount);
}

std::shared_ptr<Recording> held(std::vector<float> interleaved, int rate, int channels) {
    return std::make_shared<HeldRecording>(std::move(interleaved), rate, channels);
}

std::vector<float> clicksAt(const std::vector<long>& places, std::size_t length, int rate) {
    std::vector<float> samples(length);
    for (std::size_t i = 0; i < length; ++i) {
        const double t = static_cast<double>(i) / rate;
        samples[i] = static_cast<float>(0.02 * std::sin(1382.3 * t) + 0.02 * std::sin(2079.7 * t));
    }
    for (const long place : places)
        samples[static_cast<std::size_t>(place)] += 0.7f;
    return samples;
}

long loudestIn(std::span<const float> samples, long from, long to) {
    const auto size = static_cast<long>(samples.size());
    long best = std::clamp(from, 0L, size - 1);
    for (long i = best; i < std::min(to, size); ++i)
        if (std::abs(samples[static_cast<std::size_t>(i)]) >
            std::abs(samples[static_cast<std::size_t>(best)]))
            best = i;
    return best;
}

namespace {

/// Hann-windowed Fourier sum at one frequency.
std::complex<double> sumAt(std::span<const float> samples, double hertz, int rate) {
    std::complex<double> sum = 0;
    const auto count = static_cast<double>(samples.size());
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double window = 0.5 - 0.5 * std::cos(2 * M_PI * (static_cast<double>(i) + 0.5) / count);
        sum += window * static_cast<double>(samples[i]) *
               std::polar(1.0, -2 * M_PI * hertz * static_cast<double>(i) / rate);
    }
    return sum;
}

} // namespace

double hertzNear(std::span<const float> samples, double about, int rate) {
    double found = about;
    // The advance between two overlapping windows is unambiguous while they are less than half a turn apart.
    for (const double share : {0.02, 0.1, 0.4}) {
        const auto hop = static_cast<std::size_t>(share * static_cast<double>(samples.size()));
        const std::size_t window = samples.size() - hop;
        const auto first = sumAt(samples.first(window), found, rate);
        const auto second = sumAt(samples.subspan(hop, window), found, rate);
        const double expected = 2 * M_PI * found * static_cast<double>(hop) / rate;
        const double off = std::arg(second * std::conj(first) * std::polar(1.0, -expected));
        found += off / (2 * M_PI) * rate / static_cast<double>(hop);
    }
    return found;
}

double cents(double hertz, double reference) {
    return 1200.0 * std::log2(hertz / reference);
}

double hertzOfMidi(double midi) {
    return 440.0 * std::exp2((midi - 69.0) / 12.0);
}

double rootMeanSquare(std::span<const float> samples) {
    double squares = 0;
    for (const float sample : samples)
        squares += static_cast<double>(sample) * static_cast<double>(sample);
    return std::sqrt(squares / static_cast<double>(samples.size()));
}

} // namespace earwright::tests
