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

/// Onsets of which all that is heard is the same.
std::vector<UnwrittenCandidate> alike(std::size_t count) {
    UnwrittenCandidate candidate;
    candidate.features = {-1, -0.5f, -0.7f, 1, -2, -0.9f, 0, 0.5f, -2, 1};
    return std::vector(count, candidate);
}

TEST(Judgement, BelievesASoundTheLessTheMoreElseSounds) {
    const double alone = probabilitiesOfNotes(alike(2), 20).front();
    const double inATrio = probabilitiesOfNotes(alike(30), 20).front();
    const double inABand = probabilitiesOfNotes(alike(50), 20).front();
    EXPECT_GT(alone, inATrio);
    EXPECT_GT(inATrio, inABand);
    // In proportion to the other onsets, of which there are up to 50 to 30 times as many.
    const auto odds = [](double probability) { return probability / (1 - probability); };
    EXPECT_GT(odds(inATrio) / odds(inABand), 1.3);
    EXPECT_LT(odds(inATrio) / odds(inABand), 50.0 / 30);
}

TEST(Judgement, CountsHowMuchElseSoundsNoFurtherThanItWasTried) {
    EXPECT_EQ(probabilitiesOfNotes(alike(300), 3).front(), probabilitiesOfNotes(alike(600), 3).front());
    EXPECT_EQ(probabilitiesOfNotes(alike(1), 300).front(), probabilitiesOfNotes(alike(1), 600).front());
    EXPECT_EQ(probabilitiesOfNotes(alike(300), 0).front(), probabilitiesOfNotes(alike(3), 0).front());
    EXPECT_TRUE(probabilitiesOfNotes({}, 3).empty());
}

TEST(Judgement, PassesOverOnlyWhatCouldNotBeListedHoweverLittleElseSounds) {
    int listed = 0;
    for (float anyOnset = -6; anyOnset < 0; anyOnset += 0.05f) {
        UnwrittenCandidate sound;
        sound.features = {-1, 0, 0, 8, 0, anyOnset, 0, 0.5f, -2, 6};
        const bool isListed = probabilitiesOfNotes({sound}, 300).front() > unwrittenAbove;
        EXPECT_EQ(mayBeListed(sound.features), isListed) << anyOnset;
        listed += isListed ? 1 : 0;
    }
    EXPECT_GT(listed, 30);
    EXPECT_LT(listed, 90);
}

} // namespace
} // namespace earwright
