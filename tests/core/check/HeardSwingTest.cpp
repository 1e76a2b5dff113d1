#include "core/check/HeardSwing.h"

#include "core/check/NoteCheck.h"
#include "core/listening/RecordingEvidence.h"
#include "tests/core/listening/SyntheticSound.h"

#include <cmath>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <set>

namespace earwright {
namespace {

using namespace tests;
using testing::Each;
using testing::Field;

const auto supported = Field(&ClaimAnswer::verdict, Verdict::Supported);

/// Eighths at 100 to the minute, the second of each pair played late by its swing, over a held bass.
struct SwungPhrase {
    AnalysisSound sound{silence(Seconds(6)), {}};
    /// Written evenly.
    std::vector<Claim> claims;

    /// `lag`: of all notes behind their places. `rests`: the beats on which nothing begins.
    explicit SwungPhrase(double swing, Seconds lag = Seconds(0), const std::set<std::size_t>& rests = {}) {
        constexpr double beat = 0.6;
        const std::vector<int> line{62, 64, 65, 67, 69, 70, 69, 67, 65, 64, 62, 60, 64, 67};
        addTone(sound.left, {0.2_s, 5.8_s}, 38, 0.1f);
        const auto place = [&](std::size_t i, double middle) {
            return Seconds(0.5 + beat * (static_cast<double>(i / 2) + (i % 2 == 1 ? middle : 0)));
        };
        const double middle = swing / (1 + swing);
        for (std::size_t i = 0; i < line.size(); ++i) {
            if (i % 2 == 0 && rests.contains(i / 2)) continue;
            claims.push_back({{place(i, 0.5), place(i + 1, 0.5)}, line[i]});
            if (i % 2 == 1) claims.back().evenPair = Range<Seconds>{place(i - 1, 0.5), place(i + 1, 0.5)};
            addTone(sound.left, {place(i, middle) + lag, place(i + 1, middle) + lag - 0.02_s}, line[i]);
        }
        addNoise(sound.left, 0.0005f);
    }

    NoteCheck check(const std::vector<Claim>& claimed) const {
        const auto recording = RecordingEvidence::listen(sound);
        EXPECT_TRUE(recording);
        const auto evidence = recording->passage({0.0_s, 6.0_s});
        EXPECT_TRUE(evidence);
        return checkNotes(*evidence, claimed);
    }
};

TEST(HeardSwing, JudgesEvenlyWrittenEighthsAtTheSwingTheyArePlayedWith) {
    // From the triplet to the dotted feel (Friberg and Sundström 2002: up to about 3.5 to 1 at slow tempos);
    // their second notes are 100 and 150 ms behind the even place.
    for (const double swing : {2.0, 3.0}) {
        const SwungPhrase phrase(swing);
        const NoteCheck check = phrase.check(phrase.claims);
        EXPECT_THAT(check.answers, Each(supported)) << swing;
        EXPECT_TRUE(check.unwritten.empty());
        ASSERT_TRUE(check.swing);
        // Onsets are told to 10 ms: of 600, a share of 0.017.
        EXPECT_NEAR(check.swing->ratio / (1 + check.swing->ratio), swing / (1 + swing), 0.025);
        EXPECT_LE(check.swing->least, check.swing->ratio);
        EXPECT_NEAR(check.answers[3].behind.value, 0.6 * (swing / (1 + swing) - 0.5), 0.02);
        EXPECT_EQ(check.answers[2].behind, Seconds(0));
    }
}

// A horn speaks late, and where a rest stands on the beat the beat itself is all there is to measure from.
TEST(HeardSwing, TellsTheSwingOfALineThatLagsWithRestsOnItsBeats) {
    const auto shareOf = [](Seconds lag) {
        const SwungPhrase phrase(2, lag, {2, 4, 6});
        const NoteCheck check = phrase.check(phrase.claims);
        EXPECT_THAT(check.answers, Each(supported));
        return check.swing ? check.swing->ratio / (1 + check.swing->ratio) : 0;
    };
    const double punctual = shareOf(0.0_s);
    EXPECT_NEAR(punctual, 2.0 / 3, 0.025);
    EXPECT_NEAR(shareOf(0.03_s), punctual, 0.012);
}

TEST(HeardSwing, StillFindsAWrongPitchAmongSwungEighths) {
    const SwungPhrase phrase(2);
    std::vector<Claim> claims = phrase.claims;
    claims[5].midi -= 1;
    const ClaimAnswer answer = phrase.check(claims).answers[5];
    EXPECT_EQ(answer.verdict, Verdict::Contradicted);
    EXPECT_EQ(answer.suggestedMidi, phrase.claims[5].midi);
}

TEST(HeardSwing, SaysNothingOfSwingWhereEighthsAreEvenOrFew) {
    const SwungPhrase even(1);
    EXPECT_FALSE(even.check(even.claims).swing);
    // Three pairs say nothing of the phrase, but their notes may lie anywhere that swing would put them.
    const SwungPhrase swung(3);
    const std::vector<Claim> few(swung.claims.begin(), swung.claims.begin() + 7);
    const NoteCheck check = swung.check(few);
    EXPECT_FALSE(check.swing);
    EXPECT_THAT(check.answers, Each(supported));
}

TEST(HeardSwing, KeepsSwungNotesTheirLengthThatEndBeforeTheBeat) {
    // Written as sixteenths with a rest behind: at three to one nothing would be left of one that begins
    // later and ends where it is written.
    const SwungPhrase phrase(3);
    std::vector<Claim> claims = phrase.claims;
    for (Claim& claim : claims)
        if (claim.evenPair) claim.range.end = claim.range.begin + claim.range.length() * 0.5;
    for (const ClaimAnswer& answer : phrase.check(claims).answers) {
        EXPECT_TRUE(std::isfinite(answer.score));
        EXPECT_NE(answer.verdict, Verdict::Contradicted);
    }
}

} // namespace
} // namespace earwright
