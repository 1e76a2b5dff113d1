#include "core/time/Beats.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(Beats, ThreeTripletsMakeExactlyOneBeat) {
    EXPECT_EQ(Beats(1, 3) + Beats(1, 3) + Beats(1, 3), Beats(1));
}

TEST(Beats, AreKeptInLowestTermsWithAPositiveDenominator) {
    EXPECT_EQ(Beats(6, 4).numerator(), 3);
    EXPECT_EQ(Beats(6, 4).denominator(), 2);
    EXPECT_EQ(Beats(1, -3).numerator(), -1);
    EXPECT_EQ(Beats(1, -3).denominator(), 3);
    EXPECT_EQ(Beats(0, 7), Beats(0));
}

TEST(Beats, CompareByValueAcrossDenominators) {
    EXPECT_LT(Beats(1, 3), Beats(1, 2));
    EXPECT_LT(Beats(-1, 2), Beats(-1, 3));
    EXPECT_GT(Beats(7, 6), Beats(1));
}

TEST(Beats, FloorGoesDownBelowZero) {
    EXPECT_EQ(Beats(-1, 3).floor(), -1);
    EXPECT_EQ(Beats(-1, 3).fraction(), Beats(2, 3));
    EXPECT_EQ(Beats(-2).floor(), -2);
    EXPECT_EQ(Beats(-2).fraction(), Beats(0));
    EXPECT_EQ(Beats(5, 2).floor(), 2);
}

TEST(Beats, SubtractDivideAndMultiplyExactly) {
    EXPECT_EQ(Beats(1, 2) - Beats(1, 3), Beats(1, 6));
    EXPECT_EQ(Beats(1) / 6, Beats(1, 6));
    EXPECT_EQ(Beats(2, 3) * 3, Beats(2));
}

TEST(Beats, NearestRoundsToTheGridAskedFor) {
    EXPECT_EQ(Beats::nearest(1.34, 3), Beats(4, 3));
    EXPECT_EQ(Beats::nearest(1.34, 2), Beats(3, 2));
    EXPECT_EQ(Beats::nearest(-0.3, 3), Beats(-1, 3));
    EXPECT_EQ(Beats::nearest(0.5, 1), Beats(1));
}

TEST(Beats, ReadAsFractions) {
    EXPECT_EQ(toString(Beats(3)), "3");
    EXPECT_EQ(toString(Beats(-1, 3)), "-1/3");
}

} // namespace
} // namespace earwright
