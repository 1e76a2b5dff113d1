#include "core/engine/HighPass.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

constexpr SampleRate rate{48000};

double gainAt(double hertz, HighPass filter) {
    float largest = 0;
    for (int i = 0; i < 48000; ++i) {
        const float out = filter.next(static_cast<float>(std::sin(2 * M_PI * hertz * i / rate.hertz)));
        if (i >= 24000) largest = std::max(largest, std::abs(out));
    }
    return largest;
}

TEST(HighPass, HasTheGainOfAButterworthFilterOfTheFourthOrder) {
    // Butterworth (1930): 1 / sqrt(1 + (cut / f)^2n), both bent by the bilinear transform.
    for (const double hertz : {110.0, 220.0, 440.0, 880.0, 1760.0, 7000.0}) {
        const double bent = std::tan(M_PI * 440 / rate.hertz) / std::tan(M_PI * hertz / rate.hertz);
        EXPECT_NEAR(gainAt(hertz, HighPass(440, rate)), 1 / std::sqrt(1 + std::pow(bent, 8)), 0.01) << hertz;
    }
}

TEST(HighPass, LetsEverythingThroughUntilItIsGivenAFrequency) {
    HighPass filter;
    for (const float sample : {0.5f, -0.25f, 1.0f, 0.125f})
        EXPECT_EQ(filter.next(sample), sample);
}

} // namespace
} // namespace earwright
