#include "core/check/Judgement.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

constexpr double nothingElse = 0;

TEST(Judgement, SupportsWhatIsVeryProbablyRightWhateverElseMightBe) {
    EXPECT_EQ(verdictOf(0.95, nothingElse), Verdict::Supported);
    EXPECT_EQ(verdictOf(0.95, 0.99), Verdict::Supported);
}

TEST(Judgement, LeavesUnclearWhatIsLikelierThanAnyOtherPitch) {
    EXPECT_EQ(verdictOf(0.6, nothingElse), Verdict::Unclear);
    EXPECT_EQ(verdictOf(0.6, 0.5), Verdict::Unclear);
}

TEST(Judgement, ContradictsWhereAnotherPitchIsAtLeastAsProbable) {
    EXPECT_EQ(verdictOf(0.6, 0.6), Verdict::Contradicted);
    EXPECT_EQ(verdictOf(0.6, 0.9), Verdict::Contradicted);
}

TEST(Judgement, ContradictsWhatIsImprobableEvenIfNothingElseWasPlayed) {
    EXPECT_EQ(verdictOf(0.2, nothingElse), Verdict::Contradicted);
}

} // namespace
} // namespace earwright
