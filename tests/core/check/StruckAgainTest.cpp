#include "core/check/StruckAgain.h"

#include "core/listening/RecordingEvidence.h"
#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

constexpr int midi = 64;

/// A tone from 0.5 s to 1.5 s that is struck again at 1 s, and one from 2 s to 3 s that is not, over a held
/// bass.
PassageEvidence repeatedAndHeld() {
    AnalysisSound sound{silence(Seconds(4)), {}};
    addTone(sound.left, {0.2_s, 3.8_s}, 40, 0.1f);
    addTone(sound.left, {0.5_s, 0.99_s}, midi);
    addTone(sound.left, {1.0_s, 1.5_s}, midi);
    addTone(sound.left, {2.0_s, 3.0_s}, midi);
    addNoise(sound.left, 0.0005f);
    const auto recording = RecordingEvidence::listen(sound);
    EXPECT_TRUE(recording);
    auto evidence = recording->passage({0.0_s, 4.0_s});
    EXPECT_TRUE(evidence);
    return *evidence;
}

TEST(StruckAgain, IsATonesPitchThatRisesSteeply) {
    const PassageEvidence evidence = repeatedAndHeld();
    EXPECT_GT(riseAbout(evidence, midi, 1.0_s, 0.5_s, std::nullopt), struckAgainAbove);
    EXPECT_LT(riseAbout(evidence, midi, 2.5_s, 2.0_s, std::nullopt), soundsOnBelow);
}

TEST(StruckAgain, IsNotWhatBeganBeforeOrBeginsNext) {
    const PassageEvidence evidence = repeatedAndHeld();
    EXPECT_LT(riseAbout(evidence, midi, 2.08_s, 2.0_s, std::nullopt), soundsOnBelow);
    EXPECT_LT(riseAbout(evidence, midi, 0.94_s, 0.5_s, 1.0_s), soundsOnBelow);
    EXPECT_EQ(riseAbout(evidence, midi, 2.5_s, 2.5_s, 2.5_s), 0) << "there is nowhere to look";
}

TEST(StruckAgain, IsAskedOfAClaimThatFollowsOneOfItsPitch) {
    const std::vector<Claim> claims{{{0.5_s, 0.9_s}, 64},  {{1.0_s, 1.2_s}, 64}, {{1.2_s, 1.3_s}, 65},
                                    {{1.31_s, 1.6_s}, 64}, {{2.0_s, 2.2_s}, 64}, {{2.01_s, 2.2_s}, 64}};
    EXPECT_FALSE(repeatedBy(claims, 0));
    EXPECT_EQ(repeatedBy(claims, 1), 0u);
    EXPECT_FALSE(repeatedBy(claims, 2));
    EXPECT_EQ(repeatedBy(claims, 3), 1u) << "what stands between them need not end the first";
    EXPECT_FALSE(repeatedBy(claims, 4)) << "that was long over";
    EXPECT_FALSE(repeatedBy(claims, 5)) << "struck together";
}

TEST(StruckAgain, IsToldOfClaimsWhoseBeginningIsNotPlain) {
    const PassageEvidence evidence = repeatedAndHeld();
    const std::vector<Claim> claims{
        {{0.5_s, 1.0_s}, midi}, {{1.0_s, 1.5_s}, midi}, {{2.0_s, 2.5_s}, midi}, {{2.5_s, 3.0_s}, midi}};
    const auto rises = risesOf(evidence, claims, evidence.onsets(0));
    ASSERT_EQ(rises.size(), 4u);
    EXPECT_FALSE(rises[0]) << "it begins plainly";
    ASSERT_TRUE(rises[1]);
    EXPECT_GT(*rises[1], struckAgainAbove);
    EXPECT_FALSE(rises[2]);
    ASSERT_TRUE(rises[3]);
    EXPECT_LT(*rises[3], soundsOnBelow);
}

} // namespace
} // namespace earwright
