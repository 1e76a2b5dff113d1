#include "core/time/BeatRatio.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(BeatRatio, TellsHowOftenAPartGoesIntoALength) {
    EXPECT_EQ(ratio(Beats(3), Beats(1, 2)), Beats(6)) << "eighths in three quarters";
    EXPECT_EQ(ratio(Beats(1, 2), Beats(3)), Beats(1, 6));
    EXPECT_EQ(ratio(Beats(2, 3), Beats(3, 4)), Beats(8, 9));
}

TEST(BeatRatio, HoldsForPlacesBeforeBarOne) {
    EXPECT_EQ(ratio(Beats(-1, 2), Beats(1, 3)), Beats(-3, 2));
    EXPECT_EQ(ratio(Beats(-5), Beats(4)).floor(), -2) << "the second bar before bar 1";
}

TEST(BeatRatio, GivesTheLengthAgainTimesThePart) {
    for (const Beats& part : {Beats(1, 12), Beats(5, 7), Beats(9, 2)}) {
        const Beats times = ratio(Beats(7, 3), part);
        EXPECT_EQ(part * times.numerator() / times.denominator(), Beats(7, 3));
    }
}

} // namespace
} // namespace earwright
