// The climb at the desk: a loop that gets faster pass by pass.
#include "tests/ui/desk/TonesDesk.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

class LoopClimb : public TonesDesk {};

TEST_F(LoopClimb, ClimbsAsTheLoopGoesRoundAndFallsBackAStep) {
    open(recording());
    window->listening().loopOver(Range{Seconds(1), Seconds(1.2)});
    window->listening().playAt(0.5);
    window->loopManner().chooseClimb(Climb{10, 1, 70});
    press(Qt::Key_Space);
    // Two rounds at 50 and 60 %, then it stays.
    ASSERT_TRUE(soon([&] { return study().practice.speed == 0.7; })) << study().practice.speed;
    QTest::qWait(600);
    EXPECT_EQ(study().practice.speed, 0.7);
    press(Qt::Key_Space);
    ASSERT_TRUE(soon([&] { return !window->listening().listen().playing; }));
    press(Qt::Key_K, Qt::ShiftModifier);
    ASSERT_TRUE(soon([&] { return study().practice.speed == 0.6; })) << study().practice.speed;
    press(Qt::Key_Space);
    ASSERT_TRUE(soon([&] { return study().practice.speed == 0.7; })) << study().practice.speed;
}

TEST_F(LoopClimb, ClimbsOnFromASpeedChosenByHand) {
    open(recording());
    window->listening().loopOver(Range{Seconds(1), Seconds(1.2)});
    window->listening().playAt(0.5);
    window->loopManner().chooseClimb(Climb{10, 2, 200});
    press(Qt::Key_Space);
    ASSERT_TRUE(soon([&] { return study().practice.speed == 0.6; })) << study().practice.speed;
    window->listening().playAt(0.35);
    ASSERT_TRUE(soon([&] { return study().practice.speed != 0.35; }));
    EXPECT_EQ(study().practice.speed, 0.45);
}

TEST_F(LoopClimb, CountsRecordAndYoursAsOneRoundOfTheClimb) {
    open(recording());
    window->listening().loopOver(Range{Seconds(1), Seconds(1.2)});
    window->chooseHearing(Hearing::Trade);
    window->loopManner().chooseClimb(Climb{5, 1, 200});
    window->listening().playAt(0.5);
    press(Qt::Key_Space);
    ASSERT_TRUE(soon([&] { return window->listening().heard().yoursTurn; }));
    EXPECT_EQ(study().practice.speed, 0.5);
    ASSERT_TRUE(soon([&] { return study().practice.speed == 0.55; })) << study().practice.speed;
    EXPECT_FALSE(window->listening().heard().yoursTurn);
}

TEST_F(LoopClimb, EndsTheClimbWithItsLoop) {
    open(recording());
    press(Qt::Key_K);
    EXPECT_FALSE(window->loopManner().isClimbing());
    window->listening().loopOver(Range{Seconds(1), Seconds(3)});
    window->listening().playAt(0.5);
    ASSERT_TRUE(soon([&] { return window->commands().action(CommandId::ClimbOnOrOff)->isEnabled(); }));
    press(Qt::Key_K);
    EXPECT_TRUE(window->loopManner().isClimbing());
    press(Qt::Key_Period);
    EXPECT_TRUE(window->loopManner().isClimbing());
    press(Qt::Key_L, Qt::ShiftModifier);
    EXPECT_FALSE(window->loopManner().isClimbing());
    EXPECT_EQ(study().practice.speed, 0.5);
}

} // namespace
} // namespace earwright::ui
