#include "ui/desk/SpeedSteps.h"

#include <algorithm>
#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

TEST(SpeedSteps, GoDownAndUpOneByOne) {
    EXPECT_DOUBLE_EQ(slowerThan(1.0), 0.8);
    EXPECT_DOUBLE_EQ(slowerThan(0.65), 0.5);
    EXPECT_DOUBLE_EQ(fasterThan(0.5), 0.65);
    EXPECT_DOUBLE_EQ(fasterThan(1.0), 1.2);
}

TEST(SpeedSteps, StopAtWhatTheEnginePlays) {
    EXPECT_DOUBLE_EQ(slowerThan(0.1), 0.1);
    EXPECT_DOUBLE_EQ(fasterThan(2.0), 2.0);
}

TEST(SpeedSteps, FindTheNearestStepFromASpeedBetween) {
    EXPECT_DOUBLE_EQ(slowerThan(0.42), 0.35);
    EXPECT_DOUBLE_EQ(fasterThan(0.42), 0.5);
}

TEST(SpeedSteps, OfferOnTheLoopOnlyWhatTheKeysReach) {
    for (const int step : loopSpeedSteps())
        EXPECT_TRUE(std::binary_search(speedSteps().begin(), speedSteps().end(), step)) << step;
}

} // namespace
} // namespace earwright::ui
