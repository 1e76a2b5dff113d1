#include "core/engine/Slew.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(Slew, MovesByOneStepAFrameAndStopsAtItsAim) {
    Slew gain(0);
    gain.setFrames(4);
    gain.aimAt(0.6f);
    EXPECT_FLOAT_EQ(gain.next(), 0.25f);
    EXPECT_FLOAT_EQ(gain.next(), 0.5f);
    EXPECT_FLOAT_EQ(gain.next(), 0.6f);
    EXPECT_FLOAT_EQ(gain.next(), 0.6f);
    gain.aimAt(0);
    EXPECT_FLOAT_EQ(gain.next(), 0.35f);
}

TEST(Slew, MayFallFasterThanItRises) {
    Slew gain(1);
    gain.setFrames(2, 8);
    gain.aimAt(0);
    EXPECT_FLOAT_EQ(gain.next(), 0.5f);
    gain.aimAt(1);
    EXPECT_FLOAT_EQ(gain.next(), 0.625f);
    EXPECT_FLOAT_EQ(gain.value(), 0.625f);
}

} // namespace
} // namespace earwright
