#include "core/listening/OnsetTrack.h"

#include "tests/core/listening/SyntheticSound.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

TEST(OnsetTrack, FindsThePlaceOfATimeAndStaysInside) {
    const OnsetTrack track(2.0_s, 0.01_s, std::vector<OnsetTrack::Row>(100));
    EXPECT_EQ(track.nearest(2.0_s), 0u);
    EXPECT_EQ(track.nearest(2.104_s), 10u);
    EXPECT_EQ(track.nearest(2.106_s), 11u);
    EXPECT_EQ(track.nearest(0.0_s), 0u);
    EXPECT_EQ(track.nearest(9.0_s), 99u);
    EXPECT_NEAR(track.timeOf(10).value, 2.1, 1e-9);
}

TEST(OnsetTrack, SaysHowLikelyAnyOnsetIs) {
    std::vector<OnsetTrack::Row> rows(2);
    rows[0][OnsetTrack::noOnset] = std::log(0.25f);
    rows[1][OnsetTrack::noOnset] = 0;
    const OnsetTrack track(0.0_s, 0.01_s, rows);
    EXPECT_NEAR(track.anyOnset(0), std::log(0.75), 1e-4);
    EXPECT_LT(track.anyOnset(1), -10);
}

} // namespace
} // namespace earwright
