#include "core/time/Range.h"

#include "core/time/Beats.h"
#include "core/time/Frames.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using FrameRange = Range<Frames>;

FrameRange range(std::int64_t begin, std::int64_t end) {
    return {Frames(begin), Frames(end)};
}

TEST(Range, HoldsItsBeginningButNotItsEnd) {
    EXPECT_TRUE(range(10, 20).contains(Frames(10)));
    EXPECT_TRUE(range(10, 20).contains(Frames(19)));
    EXPECT_FALSE(range(10, 20).contains(Frames(20)));
    EXPECT_FALSE(range(10, 20).contains(Frames(9)));
}

TEST(Range, IntersectionIsWhatBothCoverAndNotTheHull) {
    EXPECT_EQ(range(0, 10).intersection(range(5, 15)), range(5, 10));
    EXPECT_EQ(range(0, 20).intersection(range(5, 8)), range(5, 8));
}

TEST(Range, TouchingOrSeparateRangesDoNotIntersect) {
    EXPECT_EQ(range(0, 10).intersection(range(10, 20)), std::nullopt);
    EXPECT_EQ(range(0, 10).intersection(range(30, 40)), std::nullopt);
    EXPECT_FALSE(range(0, 10).overlaps(range(10, 20)));
    EXPECT_TRUE(range(0, 11).overlaps(range(10, 20)));
}

TEST(Range, AnEmptyRangeOverlapsNothing) {
    EXPECT_TRUE(range(5, 5).isEmpty());
    EXPECT_TRUE(range(6, 5).isEmpty());
    EXPECT_FALSE(range(5, 5).overlaps(range(0, 10)));
}

TEST(Range, WorksOnExactBeats) {
    const Range<Beats> triplet{Beats(1, 3), Beats(2, 3)};
    EXPECT_EQ(triplet.length(), Beats(1, 3));
    EXPECT_EQ(triplet.shifted(Beats(1)), (Range<Beats>{Beats(4, 3), Beats(5, 3)}));
}

} // namespace
} // namespace earwright
