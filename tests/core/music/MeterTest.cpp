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

} // namespace
} // namespace earwright
