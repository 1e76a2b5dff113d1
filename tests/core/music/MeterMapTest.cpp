#include "core/music/MeterMap.h"

#include <gtest/gtest.h>
#include <type_traits>

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

/// 4/4 to bar 2, 3/4 to bar 4, 6/8 to bar 6, then 4/4: bars begin on beats 0 4 8 11 14 17 20 24.
MeterMap fourThreeSixFour() {
    return MeterMap(Meter{4, 4}, {{3, {3, 4}}, {5, {6, 8}}, {7, {4, 4}}});
}

TEST(MeterMap, OfAMeterIsMadeOnlyWhereItIsAskedFor) {
    static_assert(!std::is_convertible_v<Meter, MeterMap>);
    static_assert(std::is_constructible_v<MeterMap, Meter>);
}

TEST(MeterMap, FindsTheCountedBeatBefore) {
    // Counted beats at 0 4 8 11 14 17 20 24, with those in between: 15 1/2 is the second of bar 5.
    const MeterMap meters = fourThreeSixFour();
    EXPECT_EQ(meters.previousCount(Beats(17)), Beats(31, 2)) << "the second dotted quarter of bar 5";
    EXPECT_EQ(meters.previousCount(Beats(31, 2)), Beats(14));
    EXPECT_EQ(meters.previousCount(Beats(14)), Beats(13));
    EXPECT_EQ(meters.previousCount(Beats(15)), Beats(14)) << "within a beat: its beginning";
    EXPECT_EQ(meters.previousCount(Beats(0)), Beats(-1));
}

TEST(MeterMap, FindsBarsOfChangingLengthAndTheirParts) {
    const MeterMap meters = fourThreeSixFour();
    const int starts[]{0, 4, 8, 11, 14, 17, 20, 24};
    for (int bar = 1; bar <= 8; ++bar) {
        EXPECT_EQ(meters.barStart(bar), Beats(starts[bar - 1]));
        EXPECT_DOUBLE_EQ(meters.barsAt(starts[bar - 1]), bar - 1);
        EXPECT_DOUBLE_EQ(meters.beatsAtBars(bar - 0.5),
                         starts[bar - 1] + meters.barLength(bar).toDouble() / 2);
    }
    EXPECT_DOUBLE_EQ(meters.barsAt(-2), -0.5);
    EXPECT_EQ(meters.nearestBar(12.4), 4);
    EXPECT_EQ(meters.nearestBar(12.6), 5);
}

TEST(MeterMap, ABarMayBeginBetweenBeatsOfTheFirstMeter) {
    const MeterMap meters(Meter{4, 4}, {{2, {7, 8}}, {3, {4, 4}}});
    EXPECT_EQ(meters.barStart(3), Beats(15, 2));
    EXPECT_DOUBLE_EQ(meters.barsAt(7.5), 2.0);
    EXPECT_DOUBLE_EQ(meters.barsAt(7.75), 2.0625);
    EXPECT_EQ(meters.countStart(Beats(8)), Beats(15, 2));
    EXPECT_EQ(meters.nextCount(Beats(7)), Beats(15, 2));
}

TEST(MeterMap, CountsDottedQuartersWhereEighthsGoInThrees) {
    // Common practice: 6/8, 9/8 and 12/8 are counted in dotted quarters, 3/8 and 7/8 in eighths.
    const MeterMap meters = fourThreeSixFour();
    EXPECT_EQ(meters.countLength(5), Beats(3, 2));
    EXPECT_EQ(meters.countStart(Beats(31, 2)), Beats(31, 2));
    EXPECT_EQ(meters.countStart(Beats(15)), Beats(14));
    EXPECT_EQ(meters.nextCount(Beats(31, 2)), Beats(17));
    EXPECT_EQ(meters.nearestCount(14.9), Beats(31, 2));
    EXPECT_EQ((Meter{12, 8}).unitsPerCount(), 3);
    EXPECT_EQ((Meter{3, 8}).unitsPerCount(), 1);
    EXPECT_EQ((Meter{7, 8}).unitsPerCount(), 1);
    EXPECT_EQ((Meter{3, 4}).unitsPerCount(), 1);
}

} // namespace
} // namespace earwright
