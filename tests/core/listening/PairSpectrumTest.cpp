#include "core/listening/PairSpectrum.h"

#include "core/listening/LogSpectrum.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <random>
#include <vector>

namespace earwright {
namespace {

std::vector<float> noise(unsigned seed, float level) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<float> sample(-level, level);
    std::vector<float> sound(12000);
    for (float& value : sound)
        value = sample(random);
    return sound;
}

LogBins alone(const std::vector<float>& sound, std::ptrdiff_t start, std::size_t length, double cents) {
    LogSpectrum spectrum(PairSpectrum::fftLength, cents);
    LogBins bins;
    spectrum.of(sound, start, length, bins);
    return bins;
}

/// Both are sums of thousands of floats: two millionths of the loudest bin are their rounding.
void expectSame(const LogBins& bins, const LogBins& expected) {
    const float loudest = *std::ranges::max_element(expected);
    ASSERT_GT(loudest, 0);
    for (std::size_t bin = 0; bin < axisBins; ++bin)
        EXPECT_NEAR(bins[bin], expected[bin], 2e-6f * loudest) << bin;
}

TEST(PairSpectrum, HearsTwoStretchesAsEachWouldBeHeardAlone) {
    const std::vector<float> one = noise(1, 1);
    const std::vector<float> other = noise(2, 0.5f);
    PairSpectrum pair(17);
    for (const std::size_t length : {1433u, 3528u, 7717u, 8192u}) {
        pair.hear({one, 300, length}, {other, 2000, 1600});
        expectSame(pair.first(), alone(one, 300, length, 17));
        expectSame(pair.second(), alone(other, 2000, 1600, 17));
    }
}

TEST(PairSpectrum, HearsTheMiddleAndTheSidesOfTheTwo) {
    const std::vector<float> left = noise(3, 1);
    const std::vector<float> right = noise(4, 1);
    std::vector<float> middle(left.size());
    std::vector<float> sides(left.size());
    for (std::size_t i = 0; i < left.size(); ++i) {
        middle[i] = 0.5f * (left[i] + right[i]);
        sides[i] = 0.5f * (left[i] - right[i]);
    }
    PairSpectrum pair(0);
    pair.hear({left, 100, 3528}, {right, 100, 3528});
    expectSame(pair.middle(), alone(middle, 100, 3528, 0));
    expectSame(pair.sides(), alone(sides, 100, 3528, 0));
}

TEST(PairSpectrum, FollowsTheTuningAndHearsSilenceOutsideTheSound) {
    const std::vector<float> sound = noise(5, 1);
    PairSpectrum pair(0);
    pair.tune(-31);
    pair.hear({sound, -700, 1600}, {sound, 11500, 1600});
    expectSame(pair.first(), alone(sound, -700, 1600, -31));
    expectSame(pair.second(), alone(sound, 11500, 1600, -31));
    pair.hear({sound, 20000, 1600}, {});
    EXPECT_EQ(std::ranges::max(pair.first()), 0);
    EXPECT_EQ(std::ranges::max(pair.second()), 0);
}

} // namespace
} // namespace earwright
