#include "ui/desk/LoopMaking.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

TEST(LoopMaking, TakesItsEndsOneAfterTheOther) {
    LoopMaking making;
    EXPECT_FALSE(making.tap(Seconds(4)));
    EXPECT_EQ(making.start(), Seconds(4));
    EXPECT_EQ(making.tap(Seconds(7)), (Range{Seconds(4), Seconds(7)}));
    EXPECT_FALSE(making.start());
}

TEST(LoopMaking, TakesTheEndFirstAsWell) {
    LoopMaking making;
    making.tap(Seconds(7));
    EXPECT_EQ(making.tap(Seconds(4)), (Range{Seconds(4), Seconds(7)}));
}

TEST(LoopMaking, WaitsOnWhenTappedTwiceAtOnePlace) {
    LoopMaking making;
    making.tap(Seconds(4));
    EXPECT_FALSE(making.tap(Seconds(4.01)));
    EXPECT_EQ(making.start(), Seconds(4));
    making.giveUp();
    EXPECT_FALSE(making.start());
}

TEST(LoopMaking, MovesOneEndALittle) {
    const Range loop{Seconds(4), Seconds(7)};
    EXPECT_EQ(LoopMaking::nudged(loop, LoopEnd::Start, -1, Seconds(60)).end, Seconds(7));
    EXPECT_LT(LoopMaking::nudged(loop, LoopEnd::Start, -1, Seconds(60)).begin, Seconds(4));
    EXPECT_GT(LoopMaking::nudged(loop, LoopEnd::End, 1, Seconds(60)).end, Seconds(7));
}

TEST(LoopMaking, KeepsTheLoopInTheRecordingAndLongEnoughToPlay) {
    EXPECT_EQ(LoopMaking::nudged({Seconds(0), Seconds(1)}, LoopEnd::Start, -1, Seconds(60)).begin,
              Seconds(0));
    EXPECT_EQ(LoopMaking::nudged({Seconds(50), Seconds(60)}, LoopEnd::End, 1, Seconds(60)).end, Seconds(60));
    const Range shortest = LoopMaking::nudged({Seconds(4), Seconds(4.06)}, LoopEnd::End, -1, Seconds(60));
    EXPECT_NEAR(shortest.length().value, 0.05, 1e-9);
}

} // namespace
} // namespace earwright::ui
