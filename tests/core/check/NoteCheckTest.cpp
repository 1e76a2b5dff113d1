#include "core/check/NoteCheck.h"

#include "core/listening/RecordingEvidence.h"
#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <cmath>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;
using testing::Each;
using testing::Field;

constexpr double noteLength = 0.22;
constexpr double noteStep = 0.25;

/// A phrase of plucked tones over a held bass, and the claims that are right for it.
struct Phrase {
    AnalysisSound sound{silence(Seconds(4)), {}};
    std::vector<Claim> claims;

    explicit Phrase(double cents = 0) {
        const std::vector<int> line{62, 64, 65, 67, 69, 70, 69, 67, 65, 64, 62, 60};
        addTone(sound.left, {0.2_s, 3.8_s}, 38 + cents / 100, 0.1f);
        for (std::size_t i = 0; i < line.size(); ++i) {
            const Seconds begin(0.5 + noteStep * static_cast<double>(i));
            claims.push_back({{begin, begin + Seconds(noteLength)}, line[i]});
            addTone(sound.left, claims.back().range, line[i] + cents / 100);
        }
        addNoise(sound.left, 0.0005f);
    }

    NoteCheck check(const std::vector<Claim>& claimed) const {
        const auto recording = RecordingEvidence::listen(sound);
        EXPECT_TRUE(recording);
        const auto evidence = recording->passage({0.0_s, 4.0_s});
        EXPECT_TRUE(evidence);
        return checkNotes(*evidence, claimed);
    }
};

const auto supported = Field(&ClaimAnswer::verdict, Verdict::Supported);

TEST(NoteCheck, SupportsARightPhrase) {
    const Phrase phrase;
    const NoteCheck check = phrase.check(phrase.claims);
    EXPECT_THAT(check.answers, Each(supported));
    EXPECT_TRUE(check.unwritten.empty());
}

TEST(NoteCheck, ContradictsWrongPitchesAndNamesTheRightOnes) {
    for (const int mistake : {-12, -5, -2, -1, 1, 2, 5, 12}) {
        const Phrase phrase;
        std::vector<Claim> claims = phrase.claims;
        claims[4].midi += mistake;
        const NoteCheck check = phrase.check(claims);
        EXPECT_EQ(check.answers[4].verdict, Verdict::Contradicted) << mistake;
        EXPECT_EQ(check.answers[4].suggestedMidi, phrase.claims[4].midi) << mistake;
        EXPECT_LT(check.answers[4].score, check.answers[3].score);
        EXPECT_TRUE(check.unwritten.empty()) << "the suggestion names the sound already";
    }
}

TEST(NoteCheck, NeverContradictsAWrongLength) {
    const Phrase phrase;
    std::vector<Claim> claims = phrase.claims;
    for (Claim& claim : claims)
        claim.range.end = claim.range.begin + Seconds(0.06);
    claims[2].range.end = claims[2].range.begin + Seconds(0.6);
    for (const ClaimAnswer& answer : phrase.check(claims).answers)
        EXPECT_NE(answer.verdict, Verdict::Contradicted);
}

TEST(NoteCheck, AllowsHumanTiming) {
    // Onsets written up to 35 ms early or late are still the same notes.
    const Phrase phrase;
    std::vector<Claim> claims = phrase.claims;
    for (std::size_t i = 0; i < claims.size(); ++i)
        claims[i].range = claims[i].range.shifted(Seconds(i % 2 == 0 ? 0.035 : -0.035));
    const NoteCheck check = phrase.check(claims);
    EXPECT_THAT(check.answers, Each(supported));
    EXPECT_TRUE(check.unwritten.empty());
}

TEST(NoteCheck, JudgesALineThatLiesBesideItsPlacesWhereItIs) {
    // A player far behind the beat, and bars that were tapped late.
    for (const double lag : {0.06, -0.06}) {
        const Phrase phrase;
        std::vector<Claim> claims = phrase.claims;
        for (Claim& claim : claims)
            claim.range = claim.range.shifted(Seconds(0) - Seconds(lag));
        const NoteCheck right = phrase.check(claims);
        EXPECT_THAT(right.answers, Each(supported)) << lag;
        EXPECT_TRUE(right.unwritten.empty()) << lag;
        for (const ClaimAnswer& answer : right.answers)
            EXPECT_NEAR(answer.behind.value, 0, 1e-9) << "what all of them have in common is no note's own";
        claims[4].midi += 2;
        const NoteCheck wrong = phrase.check(claims);
        EXPECT_EQ(wrong.answers[4].verdict, Verdict::Contradicted) << lag;
        EXPECT_EQ(wrong.answers[4].suggestedMidi, phrase.claims[4].midi) << lag;
    }
}

TEST(NoteCheck, FindsALateNoteOfADoubleStopWhicheverOfTheTwoIsWrittenFirst) {
    // So short, and 100 ms late, that nothing of them sounds where they are written.
    const Range<Seconds> written{3.5_s, 3.61_s};
    for (const int interval : {-9, -4, 4})
        for (const bool isFirst : {true, false}) {
            Phrase phrase;
            std::vector<Claim> both{{written, 65}, {written, 65 + interval}};
            if (!isFirst) std::swap(both[0], both[1]);
            for (const Claim& claim : both) {
                phrase.claims.push_back(claim);
                addTone(phrase.sound.left, written.shifted(0.1_s), claim.midi);
            }
            const NoteCheck check = phrase.check(phrase.claims);
            const ClaimAnswer& answer = check.answers[phrase.claims.size() - (isFirst ? 2 : 1)];
            EXPECT_THAT(answer, supported) << interval << ' ' << isFirst;
            // Onsets are told to 10 ms.
            EXPECT_NEAR(answer.behind.value, 0.1, 0.015) << interval << ' ' << isFirst;
        }
}

TEST(NoteCheck, DoesNotSupportANoteWrittenWhereNoneBegins) {
    const Phrase phrase;
    std::vector<Claim> claims = phrase.claims;
    claims[6].range = claims[6].range.shifted(Seconds(0.16));
    EXPECT_NE(phrase.check(claims).answers[6].verdict, Verdict::Supported);
    // In the silence after the last note.
    claims = phrase.claims;
    claims.push_back({{3.62_s, 3.8_s}, 62});
    const ClaimAnswer afterwards = phrase.check(claims).answers.back();
    EXPECT_NE(afterwards.verdict, Verdict::Supported);
    EXPECT_FALSE(afterwards.suggestedMidi) << "nothing begins there that could be named";
    EXPECT_TRUE(afterwards.nothingBegins);
}

/// Adds a blown tone: it swells for a fifth of a second and then holds.
void addSwell(std::vector<float>& sound, const Range<Seconds>& range, int midi) {
    constexpr double attack = 0.2, release = 0.05, halfTurn = 3.14159265358979;
    const double length = range.length().value;
    const auto first = static_cast<std::size_t>(analysisRate.frames(range.begin).value);
    const auto count = static_cast<std::size_t>(length * analysisRate.hertz);
    for (std::size_t i = 0; i < count; ++i) {
        const double time = static_cast<double>(i) / analysisRate.hertz;
        const double rise = std::sin(halfTurn / 2 * std::min(1.0, time / attack));
        double tone = 0;
        for (int partial = 1; partial <= 8; ++partial)
            tone += std::sin(2 * halfTurn * partial * tests::hertzOf(midi) * time) / std::pow(partial, 1.5);
        const double fall = std::min(1.0, (length - time) / release);
        sound[first + i] += static_cast<float>(0.2 * rise * rise * fall * tone);
    }
}

TEST(NoteCheck, DoesNotSupportANoteWrittenLateIntoOneThatSwells) {
    AnalysisSound sound{silence(8.0_s), {}};
    std::vector<Claim> claims;
    for (const int midi : {62, 64, 65, 67, 69, 67, 65, 64, 62, 60}) {
        const Seconds begin(0.5 + 0.7 * static_cast<double>(claims.size()));
        claims.push_back({{begin, begin + 0.65_s}, midi});
        addSwell(sound.left, claims.back().range, midi);
    }
    addNoise(sound.left, 0.0005f);
    const auto recording = RecordingEvidence::listen(sound);
    ASSERT_TRUE(recording);
    const auto evidence = recording->passage({0.0_s, 8.0_s});
    ASSERT_TRUE(evidence);
    EXPECT_THAT(checkNotes(*evidence, claims).answers, Each(supported)) << "written where they begin";
    for (const std::size_t late : {1u, 3u, 5u, 7u}) {
        std::vector<Claim> written = claims;
        written[late].range.begin = claims[late].range.begin + 0.15_s;
        const ClaimAnswer answer = checkNotes(*evidence, written).answers[late];
        EXPECT_EQ(answer.verdict, Verdict::Unclear) << late;
        EXPECT_EQ(answer.doubt, Doubt::Beginning) << late;
    }
}

TEST(NoteCheck, TakesPairsTooQuickToSwingAndClaimsPastTheEnd) {
    const Phrase phrase;
    std::vector<Claim> claims = phrase.claims;
    for (std::size_t i = 0; i < 6; ++i) {
        const Seconds begin(3.6 + 0.05 * static_cast<double>(i));
        claims.push_back({{begin, begin + 0.025_s}, 64});
        claims.push_back({{begin + 0.025_s, begin + 0.05_s}, 65, Range<Seconds>{begin, begin + 0.05_s}});
    }
    for (std::size_t i = 0; i < 6; ++i) {
        const Seconds begin(9 + 0.5 * static_cast<double>(i));
        claims.push_back({{begin + 0.25_s, begin + 0.5_s}, 65, Range<Seconds>{begin, begin + 0.5_s}});
    }
    for (const ClaimAnswer& answer : phrase.check(claims).answers)
        EXPECT_TRUE(std::isfinite(answer.score));
}

TEST(NoteCheck, DoesNotSendAnExtraNoteToTheNoteThatSoundsOn) {
    const Phrase phrase;
    for (const int interval : {-4, -3, 3, 4}) {
        std::vector<Claim> claims = phrase.claims;
        const Claim soundingOn = claims[4];
        const Claim extra{{soundingOn.range.begin + Seconds(0.1), soundingOn.range.end},
                          soundingOn.midi + interval};
        claims.push_back(extra);
        const ClaimAnswer answer = phrase.check(claims).answers.back();
        EXPECT_NE(answer.verdict, Verdict::Supported) << interval;
        EXPECT_NE(answer.suggestedMidi, soundingOn.midi) << interval;
        EXPECT_TRUE(answer.suggestedMidi || answer.nothingBegins) << interval;
    }
}

TEST(NoteCheck, SendsOnlyOneOfTwoNotesToTheSameSound) {
    // The right note is written a semitone high, and another wrong one beside it.
    const Phrase phrase;
    std::vector<Claim> claims = phrase.claims;
    claims[4].midi += 1;
    claims.push_back({claims[4].range.shifted(Seconds(0.03)), claims[4].midi + 2});
    const NoteCheck check = phrase.check(claims);
    const auto isSent = [&](std::size_t i) {
        return check.answers[i].suggestedMidi == phrase.claims[4].midi;
    };
    EXPECT_TRUE(isSent(4) != isSent(claims.size() - 1));
}

TEST(NoteCheck, SaysWhatIsInDoubtOfUnclearNotesAndOfNoOthers) {
    const Phrase phrase;
    std::vector<Claim> claims = phrase.claims;
    claims[1].midi += 12;
    claims[6].range = claims[6].range.shifted(Seconds(0.16));
    claims[9].range.end = claims[9].range.begin + Seconds(0.03);
    claims[11].midi = 20;
    for (const ClaimAnswer& answer : phrase.check(claims).answers)
        EXPECT_EQ(answer.doubt.has_value(), answer.verdict == Verdict::Unclear);
}

TEST(NoteCheck, ListsASoundWithNoNote) {
    const Phrase phrase;
    std::vector<Claim> claims = phrase.claims;
    const Claim forgotten = claims[5];
    claims.erase(claims.begin() + 5);
    const NoteCheck check = phrase.check(claims);
    ASSERT_EQ(check.unwritten.size(), 1u);
    EXPECT_EQ(check.unwritten[0].midi, forgotten.midi);
    EXPECT_NEAR(check.unwritten[0].range.begin.value, forgotten.range.begin.value, 0.03);
    EXPECT_THAT(check.answers, Each(supported));
}

TEST(NoteCheck, ListsANoteThatRepeatsTheOneBefore) {
    AnalysisSound sound{silence(4.0_s), {}};
    std::vector<Claim> claims;
    for (const int midi : {60, 62, 64, 64, 64, 65, 67, 65, 64, 62}) {
        const Seconds begin(0.5 + 0.25 * static_cast<double>(claims.size()));
        claims.push_back({{begin, begin + 0.15_s}, midi});
        addTone(sound.left, claims.back().range, midi);
    }
    addNoise(sound.left, 0.0005f);
    const auto evidence = PassageEvidence::listen(sound, 0, {0.0_s, 4.0_s});
    ASSERT_TRUE(evidence);
    const Range<Seconds> second = claims[3].range;
    claims.erase(claims.begin() + 3);
    for (const Seconds end : {claims[2].range.end, second.end}) {
        claims[2].range.end = end; // before a rest, and held over it
        const NoteCheck check = checkNotes(*evidence, claims);
        ASSERT_EQ(check.unwritten.size(), 1u);
        EXPECT_EQ(check.unwritten[0].midi, 64);
        EXPECT_NEAR(check.unwritten[0].range.begin.value, second.begin.value, 0.03);
        EXPECT_THAT(check.answers, Each(supported));
    }
}

TEST(NoteCheck, LeavesOpenWhetherANoteBeginsThatOnlySoundsOn) {
    const Phrase phrase;
    std::vector<Claim> claims = phrase.claims;
    const Seconds middle = claims[4].range.begin + claims[4].range.length() * 0.5;
    claims.insert(claims.begin() + 5, {{middle, claims[4].range.end}, claims[4].midi});
    claims[4].range.end = middle;
    const NoteCheck check = phrase.check(claims);
    EXPECT_THAT(check.answers[4], supported);
    EXPECT_NE(check.answers[5].verdict, Verdict::Supported);
    EXPECT_FALSE(check.answers[5].suggestedMidi);
}

TEST(NoteCheck, ListsALeftOutNoteThoughAnInventedClaimStandsBesideIt) {
    // 55 ms before it: too far for claims that otherwise lie on their onsets.
    const Phrase phrase;
    std::vector<Claim> claims = phrase.claims;
    const Claim forgotten = claims[5];
    claims[5] = {forgotten.range.shifted(Seconds(-0.055)), forgotten.midi + 5};
    const NoteCheck check = phrase.check(claims);
    ASSERT_EQ(check.unwritten.size(), 1u);
    EXPECT_EQ(check.unwritten[0].midi, forgotten.midi);
    EXPECT_EQ(check.answers[5].verdict, Verdict::Contradicted);
    EXPECT_FALSE(check.answers[5].suggestedMidi) << "the sound is listed where it begins";
}

TEST(NoteCheck, DoesNotListWhatALooselyPlacedClaimMeans) {
    const Phrase phrase;
    std::vector<Claim> claims = phrase.claims;
    for (std::size_t i = 0; i < claims.size(); ++i)
        claims[i].range = claims[i].range.shifted(Seconds(i % 2 == 0 ? 0.035 : -0.035));
    claims[5].midi += 2;
    const NoteCheck check = phrase.check(claims);
    EXPECT_EQ(check.answers[5].suggestedMidi, phrase.claims[5].midi);
    EXPECT_TRUE(check.unwritten.empty());
}

TEST(NoteCheck, AnswersInTheOrderOfTheClaims) {
    const Phrase phrase;
    std::vector<Claim> claims = phrase.claims;
    claims[4].midi += 1;
    std::reverse(claims.begin(), claims.end());
    const NoteCheck check = phrase.check(claims);
    for (std::size_t i = 0; i < claims.size(); ++i)
        EXPECT_EQ(check.answers[i].verdict == Verdict::Contradicted, i == claims.size() - 1 - 4) << i;
}

TEST(NoteCheck, IsUnclearAboutPitchesItDoesNotListenFor) {
    const Phrase phrase;
    std::vector<Claim> claims = phrase.claims;
    claims[0].midi = 20;
    claims[1].midi = 110;
    const NoteCheck check = phrase.check(claims);
    ClaimAnswer unheard{Verdict::Unclear, 0.5};
    unheard.doubt = Doubt::Unheard;
    EXPECT_EQ(check.answers[0], unheard);
    EXPECT_EQ(check.answers[1], unheard);
}

TEST(NoteCheck, AnswersNothingForNothing) {
    const AnalysisSound quiet{silence(Seconds(2)), {}};
    const auto evidence = PassageEvidence::listen(quiet, 0, {0.0_s, 2.0_s});
    ASSERT_TRUE(evidence);
    EXPECT_EQ(checkNotes(*evidence, {}), NoteCheck{});
    const NoteCheck check = checkNotes(*evidence, {{{0.5_s, 0.8_s}, 60}});
    ASSERT_EQ(check.answers.size(), 1u);
    EXPECT_NE(check.answers[0].verdict, Verdict::Supported);
}

} // namespace
} // namespace earwright
