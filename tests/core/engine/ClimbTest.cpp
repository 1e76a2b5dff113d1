#include "core/engine/Climb.h"

#include <gtest/gtest.h>
#include <limits>

namespace earwright {
namespace {

constexpr Climb fiveEveryFour{5, 4, 100};

TEST(Climb, StaysUntilAllPassesOfAStepAreDone) {
    EXPECT_EQ(fiveEveryFour.speedAfter(0.5, 0), 0.5);
    EXPECT_EQ(fiveEveryFour.speedAfter(0.5, 3), 0.5);
    EXPECT_EQ(fiveEveryFour.speedAfter(0.5, 4), 0.55);
    EXPECT_EQ(fiveEveryFour.speedAfter(0.5, 7), 0.55);
    EXPECT_EQ(fiveEveryFour.speedAfter(0.5, 8), 0.6);
}

// 50 % and four steps of 5 % are 70 %: the very number a hand would choose, with no remainder of binary sums.
TEST(Climb, AddsStepsUpExactly) {
    EXPECT_EQ(fiveEveryFour.speedAfter(0.5, 16), 0.7);
    double handed = 0.5;
    for (int step = 0; step < 4; ++step)
        handed = fiveEveryFour.speedAfter(handed, 4);
    EXPECT_EQ(handed, 0.7);
}

TEST(Climb, ShortensTheLastStepToMeetTheTarget) {
    const Climb tens{10, 1, 80};
    EXPECT_EQ(tens.speedAfter(0.65, 1), 0.75);
    EXPECT_EQ(tens.speedAfter(0.65, 2), 0.8);
    EXPECT_EQ(tens.speedAfter(0.65, std::numeric_limits<std::int64_t>::max()), 0.8);
}

TEST(Climb, LeavesASpeedAtOrAboveTheTargetAlone) {
    const Climb toEighty{5, 1, 80};
    EXPECT_TRUE(toEighty.isAtTarget(0.8));
    EXPECT_FALSE(toEighty.isAtTarget(0.79));
    EXPECT_EQ(toEighty.speedAfter(0.8, 12), 0.8);
    EXPECT_EQ(toEighty.speedAfter(1.2, 12), 1.2);
}

TEST(Climb, FallsBackAStepAndNoLowerThanTheEnginePlays) {
    EXPECT_EQ(fiveEveryFour.stepBack(0.7), 0.65);
    EXPECT_EQ(fiveEveryFour.stepBack(0.12), 0.1);
    EXPECT_EQ(fiveEveryFour.stepBack(0.1), 0.1);
    EXPECT_EQ(fiveEveryFour.speedAfter(fiveEveryFour.stepBack(0.7), 4), 0.7);
}

TEST(Climb, TakesAtLeastOnePassForAStep) {
    EXPECT_EQ((Climb{5, 0, 100}.speedAfter(0.5, 1)), 0.55);
    EXPECT_EQ((Climb{5, 4, 100}.speedAfter(0.5, -4)), 0.5);
}

} // namespace
} // namespace earwright
