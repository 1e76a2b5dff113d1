#include "core/music/Meter.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(Meter, BarOneStartsAtBeatZero) {
    const Meter meter{4, 4};
    EXPECT_EQ(meter.barStart(1), Beats(0));
    EXPECT_EQ(meter.barOf(Beats(0)), 1);
    EXPECT_EQ(meter.barOf(Beats(15, 4)), 1);
    EXPECT_EQ(meter.barOf(Beats(4)), 2);
}

TEST(Meter, ThePickupIsBarZero) {
    const Meter meter{3, 4};
    EXPECT_EQ(meter.barOf(Beats(-1, 2)), 0);
    EXPECT_EQ(meter.withinBar(Beats(-1, 2)), Beats(5, 2));
    EXPECT_EQ(meter.barOf(Beats(-3)), 0);
    EXPECT_EQ(meter.barOf(Beats(-10, 3)), -1);
}

TEST(Meter, GoesInThreesWhereThreeEighthsOrShorterMakeAPulse) {
    // 3/8 is one pulse, though its eighths are counted (common practice).
    for (const Meter& meter : {Meter{3, 8}, Meter{6, 8}, Meter{9, 8}, Meter{12, 16}})
        EXPECT_TRUE(meter.goesInThrees()) << meter.beatsPerBar;
    for (const Meter& meter : {Meter{3, 4}, Meter{6, 4}, Meter{7, 8}, Meter{4, 8}})
        EXPECT_FALSE(meter.goesInThrees()) << meter.beatsPerBar;
}

} // namespace
} // namespace earwright
