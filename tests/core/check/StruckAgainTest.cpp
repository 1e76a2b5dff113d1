#include "core/check/StruckAgain.h"

#include "core/listening/RecordingEvidence.h"
#include "tests/core/listening/SyntheticSound.h"

#include <cmath>
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

TEST(StruckAgain, IsAPitchThatRisesSteeply) {
    const PassageEvidence evidence = repeatedAndHeld();
    EXPECT_TRUE(isStruckAbout(evidence, midi, 1.0_s, {0.5_s, 2.0_s}));
    EXPECT_FALSE(isStruckAbout(evidence, midi, 2.5_s, {2.0_s, 4.0_s}));
}

TEST(StruckAgain, IsNotWhatBeganBeforeOrBeginsNext) {
    const PassageEvidence evidence = repeatedAndHeld();
    EXPECT_FALSE(isStruckAbout(evidence, midi, 2.08_s, {2.0_s, 4.0_s}));
    EXPECT_FALSE(isStruckAbout(evidence, midi, 0.94_s, {0.5_s, 1.0_s}));
    EXPECT_FALSE(isStruckAbout(evidence, midi, 2.5_s, {2.5_s, 2.5_s})) << "there is nowhere to look";
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
    EXPECT_EQ(renewalsOf(evidence, claims, evidence.onsets(0)),
              (std::vector{Renewal::NotAsked, Renewal::Struck, Renewal::NotAsked, Renewal::SoundsOn}));
}

// A bow that turns, or a soft tongue.
TEST(StruckAgain, IsLeftOpenWhereAToneSinksAndSwellsAnew) {
    AnalysisSound sound{silence(Seconds(4)), {}};
    addTone(sound.left, {1.0_s, 3.0_s}, midi);
    for (std::size_t i = 0; i < sound.left.size(); ++i) {
        const double away = static_cast<double>(i) / analysisRate.hertz - 2.0;
        sound.left[i] *= static_cast<float>(1 - 0.7 * std::exp(-away * away / (2 * 0.06 * 0.06)));
    }
    addNoise(sound.left, 0.0005f);
    const auto recording = RecordingEvidence::listen(sound);
    ASSERT_TRUE(recording);
    const auto evidence = recording->passage({0.0_s, 4.0_s});
    ASSERT_TRUE(evidence);
    const std::vector<Claim> claims{{{1.0_s, 2.0_s}, midi}, {{2.0_s, 3.0_s}, midi}};
    EXPECT_EQ(renewalsOf(*evidence, claims, evidence->onsets(0))[1], Renewal::Open);
}

} // namespace
} // namespace earwright
