#include "core/music/MeterMap.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(MeterMap, WithoutChangesIsItsMeter) {
    const Meter waltz{3, 4};
    const MeterMap map(waltz, {});
    for (std::int64_t bar = -3; bar <= 9; ++bar)
        EXPECT_EQ(map.barStart(bar), waltz.barStart(bar));
    for (int halves = -30; halves <= 30; ++halves) {
        EXPECT_EQ(map.barOf(Beats(halves, 2)), waltz.barOf(Beats(halves, 2)));
        EXPECT_EQ(map.withinBar(Beats(halves, 2)), waltz.withinBar(Beats(halves, 2)));
    }
}

// Two bars of 4/4 (8 quarters), one of 7/8 (3 1/2), two of 6/8 (3 each), then 2/4: counted by hand.
TEST(MeterMap, CountsInTheBeatOfTheFirstMeterThroughout) {
    const MeterMap map({4, 4}, {{3, {7, 8}}, {4, {6, 8}}, {6, {2, 4}}});
    EXPECT_EQ(map.barStart(3), Beats(8));
    EXPECT_EQ(map.barStart(4), Beats(23, 2));
    EXPECT_EQ(map.barStart(5), Beats(29, 2));
    EXPECT_EQ(map.barStart(6), Beats(35, 2));
    EXPECT_EQ(map.barStart(8), Beats(43, 2));
    EXPECT_EQ(map.barStart(0), Beats(-4));
    EXPECT_EQ(map.at(0), (Meter{4, 4}));
    EXPECT_EQ(map.at(5), (Meter{6, 8}));
    EXPECT_EQ(map.at(99), (Meter{2, 4}));
    EXPECT_EQ(map.barOf(Beats(11)), 3);
    EXPECT_EQ(map.barOf(Beats(23, 2)), 4);
    EXPECT_EQ(map.withinBar(Beats(12)), Beats(1, 2));
    EXPECT_EQ(map.inOwnBeats(map.withinBar(Beats(12)), 4), Beats(1)) << "the second eighth of 6/8";
}

TEST(MeterMap, EveryBarEndsWhereTheNextBegins) {
    const MeterMap map({6, 8}, {{2, {5, 4}}, {7, {12, 8}}, {8, {3, 2}}});
    for (std::int64_t bar = -2; bar <= 12; ++bar) {
        EXPECT_EQ(map.barStart(bar) + map.barLength(bar), map.barStart(bar + 1)) << bar;
        EXPECT_EQ(map.barOf(map.barStart(bar)), bar);
        EXPECT_EQ(map.barOf(map.barStart(bar + 1) - Beats(1, 96)), bar);
    }
}

} // namespace
} // namespace earwright
