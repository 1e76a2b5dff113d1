#include "ui/grid/GridColumns.h"

#include "tests/ui/grid/SampleStudy.h"

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

Study withTriplet() {
    Study study = emptySample();
    study.divisions[Beats(5)] = BeatDivision::Three;
    return study;
}

} // namespace

TEST(GridColumns, CoverTheWholeBarsThatARangeTouches) {
    const GridColumns columns(emptySample(), {Beats(5), Beats(19, 2)});
    EXPECT_EQ(columns.range(), (Range{Beats(4), Beats(12)}));
    EXPECT_EQ(columns.size(), 16u);
    EXPECT_EQ(columns[0].range.begin, Beats(4));
    EXPECT_EQ(columns[15].range.end, Beats(12));
}

TEST(GridColumns, EndWithABarThatTheRangeEndsWith) {
    EXPECT_EQ(GridColumns(emptySample(), {Beats(4), Beats(8)}).range(), (Range{Beats(4), Beats(8)}));
}

TEST(GridColumns, ReachBackIntoThePickupBar) {
    EXPECT_EQ(GridColumns(emptySample(), {Beats(-1), Beats(2)}).range(), (Range{Beats(-4), Beats(4)}));
}

TEST(GridColumns, AreNoneForAnEmptyRange) {
    EXPECT_TRUE(GridColumns(emptySample(), {}).isEmpty());
    EXPECT_TRUE(GridColumns().isEmpty());
}

TEST(GridColumns, MakeTripletsRealTriplets) {
    const GridColumns columns(withTriplet(), {Beats(4), Beats(8)});
    EXPECT_EQ(columns.size(), 9u);
    EXPECT_EQ(columns[2].range, (Range{Beats(5), Beats(16, 3)}));
    EXPECT_EQ(columns[4].range, (Range{Beats(17, 3), Beats(6)}));
    EXPECT_EQ(columns[4].beat, Beats(5));
}

TEST(GridColumns, LeaveNoGaps) {
    const GridColumns columns(withTriplet(), {Beats(4), Beats(12)});
    for (std::size_t i = 1; i < columns.size(); ++i)
        EXPECT_EQ(columns[i - 1].range.end, columns[i].range.begin);
}

TEST(GridColumns, FindTheColumnOfAPlace) {
    const GridColumns columns(withTriplet(), {Beats(4), Beats(8)});
    EXPECT_EQ(columns.indexAt(Beats(4)), 0u);
    EXPECT_EQ(columns.indexAt(Beats(16, 3)), 3u);
    EXPECT_EQ(columns.indexAt(5.99), 4u);
    EXPECT_EQ(columns.indexAt(-3.0), 0u);
    EXPECT_EQ(columns.indexAt(99.0), 8u);
}

TEST(GridColumns, PutAnEarlySoundIntoTheColumnItBelongsTo) {
    const GridColumns columns(emptySample(), {Beats(4), Beats(8)});
    EXPECT_EQ(columns.indexNearest(4.45), 1u);
    EXPECT_EQ(columns.indexNearest(4.2), 0u);
    EXPECT_EQ(columns.indexNearest(7.95), 7u); // nothing after the last one
}

TEST(GridColumns, StepFromLineToLine) {
    const GridColumns columns(withTriplet(), {Beats(4), Beats(8)});
    EXPECT_EQ(columns.lineFrom(Beats(9, 2), 2), Beats(16, 3));
    EXPECT_EQ(columns.lineFrom(Beats(16, 3), -2), Beats(9, 2));
    EXPECT_EQ(columns.lineFrom(Beats(8), -1), Beats(15, 2));
    EXPECT_EQ(columns.lineFrom(Beats(4), -1), Beats(4));
    EXPECT_EQ(columns.lineFrom(Beats(15, 2), 5), Beats(8));
}

TEST(GridColumns, StepFromAPlaceBetweenTwoLinesToEitherOfThem) {
    const GridColumns columns(emptySample(), {Beats(4), Beats(8)});
    EXPECT_EQ(columns.lineFrom(Beats(17, 4), 1), Beats(9, 2));
    EXPECT_EQ(columns.lineFrom(Beats(17, 4), -1), Beats(4));
}

TEST(GridColumns, FollowMetersThatChange) {
    Study study = emptySample();
    study.page.meters = {{2, {3, 4}}, {3, {6, 8}}, {4, {7, 8}}, {5, {4, 4}}};
    const GridColumns columns(study, {Beats(8), Beats(14)});
    // Bar 3 begins on beat 7, bar 4 on beat 10, bar 5 on beat 13½.
    EXPECT_EQ(columns.range(), (Range{Beats(7), Beats(35, 2)}));
    // Six eighths in two beats, seven eighths of two columns each, four beats of two.
    EXPECT_EQ(columns.size(), 6u + 14u + 8u);
    EXPECT_EQ(columns[3].beat, Beats(17, 2));
    EXPECT_EQ(columns[20].range, (Range{Beats(27, 2), Beats(14)}));
}
