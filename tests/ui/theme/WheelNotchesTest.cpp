#include "ui/theme/WheelNotches.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

// A notch of most wheels is 15 degrees, so 120 eighths of one (Qt, QWheelEvent::angleDelta).

TEST(WheelNotches, CountsWholeNotchesEitherWay) {
    WheelNotches wheel;
    EXPECT_EQ(wheel.take(120), 1);
    EXPECT_EQ(wheel.take(-240), -2);
    EXPECT_EQ(wheel.take(0), 0);
}

TEST(WheelNotches, AddsUpTheSmallPartsOfATouchpad) {
    WheelNotches wheel;
    EXPECT_EQ(wheel.take(50), 0);
    EXPECT_EQ(wheel.take(50), 0);
    EXPECT_EQ(wheel.take(50), 1) << "150 of 120";
    EXPECT_EQ(wheel.take(90), 1) << "with the 30 that were left";
}

TEST(WheelNotches, ALittleBackTakesBackWhatWasLeft) {
    WheelNotches wheel;
    EXPECT_EQ(wheel.take(100), 0);
    EXPECT_EQ(wheel.take(-100), 0);
    EXPECT_EQ(wheel.take(100), 0);
    EXPECT_EQ(wheel.take(20), 1);
}

TEST(WheelNotches, ManyNotchesAtOnceLeaveTheRest) {
    WheelNotches wheel;
    EXPECT_EQ(wheel.take(-300), -2);
    EXPECT_EQ(wheel.take(-60), -1);
}

} // namespace
} // namespace earwright::ui
