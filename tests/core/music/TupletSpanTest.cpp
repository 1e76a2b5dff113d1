#include "core/music/TupletSpan.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

// A quarter-note triplet stands in a half of the bar, where it does not hide the third beat of four (common
// practice); so of a half-note triplet and its bar.
TEST(TupletSpan, StandsInTheHalvesOfABar) {
    const Meter four{4, 4};
    EXPECT_TRUE(mayTupletSpan(four, 0, 2));
    EXPECT_FALSE(mayTupletSpan(four, 1, 2));
    EXPECT_TRUE(mayTupletSpan(four, 2, 2));
    EXPECT_FALSE(mayTupletSpan(four, 3, 2)) << "it would reach over the bar line";
    EXPECT_TRUE(mayTupletSpan(four, 0, 4));
    EXPECT_FALSE(mayTupletSpan({2, 4}, 0, 4));
}

TEST(TupletSpan, StandsAnywhereInABarWithoutHalves) {
    for (const Meter& meter : {Meter{3, 4}, Meter{5, 4}, Meter{3, 2}}) {
        EXPECT_TRUE(mayTupletSpan(meter, 0, 2));
        EXPECT_TRUE(mayTupletSpan(meter, 1, 2));
        EXPECT_FALSE(mayTupletSpan(meter, meter.beatsPerBar - 1, 2));
    }
}

// Dotted quarters are counted in 6/8 (common practice): its eighths are no beats.
TEST(TupletSpan, IsNoneWhereThreeUnitsAreCountedAsOne) {
    for (std::int64_t beat = 0; beat < 6; ++beat)
        EXPECT_FALSE(mayTupletSpan({6, 8}, beat, 2));
}

} // namespace
} // namespace earwright
