#include "core/engine/GainFade.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(GainFade, ReachesItsAimInItsFramesAndStaysThere) {
    GainFade<2> gains({1, 0});
    gains.setFrames(100);
    EXPECT_EQ(gains.next()[0], 1) << "nothing moves by itself";
    gains.aimAt({0, 1});
    for (int i = 1; i < 100; ++i) {
        const auto [out, in] = gains.next();
        EXPECT_NEAR(out + in, 1, 1e-6) << "equal gain, frame " << i;
        EXPECT_NEAR(in, fadeIn(i / 100.0), 1e-6) << i;
    }
    for (int i = 0; i < 3; ++i) {
        EXPECT_EQ(gains.next()[0], 0);
        EXPECT_EQ(gains.next()[1], 1);
    }
}

TEST(GainFade, GoesOnFromWhereItIsWhenTheAimChanges) {
    GainFade<1> gain({0});
    gain.setFrames(100);
    gain.aimAt({1});
    float before = 0;
    for (int i = 0; i < 40; ++i)
        before = gain.next()[0];
    gain.aimAt({0});
    // No step is larger than the steepest of a whole fade: 2 · 0.61 · 0.96 a hundred frames.
    for (int i = 0; i < 120; ++i) {
        const float now = gain.next()[0];
        EXPECT_LE(std::abs(now - before), 0.0118f);
        EXPECT_LE(now, before);
        before = now;
    }
    EXPECT_EQ(before, 0);
}

} // namespace
} // namespace earwright
