#include "core/listening/LogSpectrum.h"

#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace earwright {
namespace {

using namespace tests;

constexpr std::size_t fftLength = 8192;
/// 160 ms.
constexpr std::size_t stretch = 3528;

std::vector<float> sineAt(double midi) {
    std::vector<float> sound(8192);
    for (std::size_t i = 0; i < sound.size(); ++i)
        sound[i] = static_cast<float>(
            std::sin(2 * std::numbers::pi * hertzOf(midi) * static_cast<double>(i) / analysisRate.hertz));
    return sound;
}

double loudestMidi(const LogBins& bins) {
    const auto loudest = std::max_element(bins.begin(), bins.end()) - bins.begin();
    return axisLowestMidi + static_cast<double>(loudest) / binsPerSemitone;
}

TEST(LogSpectrum, PutsASineAtItsPitch) {
    LogSpectrum spectrum(fftLength, 0);
    LogBins bins{};
    for (int midi = 45; midi <= 110; ++midi) {
        spectrum.of(sineAt(midi), 0, stretch, bins);
        // A line of the transform is 2.7 Hz wide: at 110 Hz 42 cents, so a bin and a half at the most.
        EXPECT_NEAR(loudestMidi(bins), midi, 0.5) << midi;
    }
}

TEST(LogSpectrum, GivesASineOfAmplitudeOneMagnitudeOne) {
    LogSpectrum spectrum(fftLength, 0);
    LogBins bins{};
    spectrum.of(sineAt(81), 0, stretch, bins);
    EXPECT_NEAR(*std::max_element(bins.begin(), bins.end()), 1, 0.03);
}

TEST(LogSpectrum, ShiftsItsAxisWithTheTuning) {
    LogSpectrum spectrum(fftLength, 40);
    LogBins bins{};
    spectrum.of(sineAt(80.4), 0, stretch, bins);
    EXPECT_NEAR(loudestMidi(bins), 80, 0.2);
}

TEST(LogSpectrum, HearsSilenceOutsideTheSound) {
    LogSpectrum spectrum(fftLength, 0);
    LogBins bins{};
    const std::vector<float> sound = sineAt(69);
    spectrum.of(sound, -5000, stretch, bins);
    EXPECT_EQ(*std::max_element(bins.begin(), bins.end()), 0);
    spectrum.of(sound, static_cast<std::ptrdiff_t>(sound.size()) + 100, stretch, bins);
    EXPECT_EQ(*std::max_element(bins.begin(), bins.end()), 0);
}

} // namespace
} // namespace earwright
