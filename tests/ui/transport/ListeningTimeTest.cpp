#include "ui/transport/ListeningTime.h"

#include <gtest/gtest.h>

using namespace earwright::ui;

namespace {

constexpr double minute = 60;

} // namespace

TEST(ListeningTime, SuggestsABreakAfterThreeQuartersOfAnHour) {
    ListeningTime time;
    time.add(44 * minute, true);
    EXPECT_FALSE(time.isBreakDue());
    time.add(minute, true);
    EXPECT_TRUE(time.isBreakDue());
}

TEST(ListeningTime, DoesNotTakeShortPausesForARest) {
    ListeningTime time;
    for (int round = 0; round < 45; ++round) {
        time.add(minute, true);
        time.add(4 * minute, false);
    }
    EXPECT_TRUE(time.isBreakDue());
}

TEST(ListeningTime, StartsAnewAfterARest) {
    ListeningTime time;
    time.add(50 * minute, true);
    for (int i = 0; i < 5; ++i)
        time.add(minute, false);
    EXPECT_FALSE(time.isBreakDue());
    time.add(44 * minute, true);
    EXPECT_FALSE(time.isBreakDue());
}

TEST(ListeningTime, KeepsQuietOnceTheWordIsPutAway) {
    ListeningTime time;
    time.add(50 * minute, true);
    time.putWordAway();
    time.add(50 * minute, true);
    EXPECT_FALSE(time.isBreakDue());
    time.add(5 * minute, false);
    time.add(45 * minute, true);
    EXPECT_TRUE(time.isBreakDue());
}
