#include "core/study/PracticeEdits.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(PracticeEdits, TheLoopIsSetInEitherOrderAndTakenAway) {
    const Study looped = setLoop({}, Range{Seconds(4), Seconds(2)});
    EXPECT_EQ(looped.practice.loop, (Range{Seconds(2), Seconds(4)}));
    EXPECT_EQ(setLoop(looped, Range{Seconds(3), Seconds(3)}), looped);
    EXPECT_EQ(setLoop(looped, Range{Seconds(0), Seconds(NAN)}), looped);
    EXPECT_EQ(setLoop(looped, std::nullopt), Study{});
}

TEST(PracticeEdits, SpeedAndTranspositionStayWithinTheirRanges) {
    EXPECT_DOUBLE_EQ(setSpeed({}, 0.5).practice.speed, 0.5);
    EXPECT_DOUBLE_EQ(setSpeed({}, 0).practice.speed, 0.1);
    EXPECT_DOUBLE_EQ(setSpeed({}, 9).practice.speed, 2.0);
    EXPECT_EQ(setSpeed({}, std::nan("")), Study{});
    const Practice transposed = setTransposition({}, -20, 130).practice;
    EXPECT_EQ(transposed.semitones, -12);
    EXPECT_EQ(transposed.cents, 100);
}

} // namespace
} // namespace earwright
