#include "core/check/OffRunJudgement.h"

#include "core/check/NoteCheck.h"
#include "core/listening/RecordingEvidence.h"
#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

using namespace tests;

constexpr double eighth = 0.25;
constexpr std::size_t barFrom = 8;
constexpr std::size_t barTo = 16;

/// Three bars of eighths, one after another, over a held bass. Of the bar in the middle no pitch is played
/// twice in a row.
struct ThreeBars {
    AnalysisSound sound{silence(Seconds(7.5)), {}};
    std::vector<Claim> claims;

    /// `onOff`: by how much what is off the beat is played later, as it swings.
    explicit ThreeBars(double onOff = 0) {
        const std::vector<int> line{62, 64, 65, 67, 69, 70, 69, 67, 65, 69, 72, 76,
                                    74, 70, 67, 64, 65, 67, 69, 65, 62, 60, 58, 57};
        addTone(sound.left, {0.2_s, 7.3_s}, 38, 0.1f);
        for (std::size_t i = 0; i < line.size(); ++i) {
            const Seconds begin(0.5 + eighth * static_cast<double>(i) + (i % 2 == 1 ? onOff : 0));
            const Seconds length(eighth - 0.03 + (i % 2 == 1 ? -onOff : onOff));
            claims.push_back({{begin, begin + length}, line[i]});
            addTone(sound.left, claims.back().range, line[i]);
        }
        addNoise(sound.left, 0.0005f);
    }

    NoteCheck check(const std::vector<Claim>& claimed) const {
        const auto recording = RecordingEvidence::listen(sound);
        EXPECT_TRUE(recording);
        const auto evidence = recording->passage({0.0_s, 7.5_s});
        EXPECT_TRUE(evidence);
        return checkNotes(*evidence, claimed);
    }

    std::vector<Claim> withBarMoved(double by, std::size_t from = barFrom, std::size_t to = barTo) const {
        std::vector<Claim> moved = claims;
        for (std::size_t i = from; i < to; ++i)
            moved[i].range = claims[i].range.shifted(Seconds(by));
        return moved;
    }
};

int countTogether(const NoteCheck& check) {
    return static_cast<int>(std::ranges::count_if(
        check.answers, [](const ClaimAnswer& answer) { return answer.together.has_value(); }));
}

TEST(OffRunJudgement, FindsABarThatIsWrittenTooLateOrTooEarly) {
    const ThreeBars bars;
    for (const double by : {0.125, 0.25, 0.5, -0.125, -0.25, -0.5}) {
        const NoteCheck check = bars.check(bars.withBarMoved(by));
        ASSERT_TRUE(check.answers[barFrom + 3].together) << by;
        const OffTogether& run = *check.answers[barFrom + 3].together;
        EXPECT_TRUE(run.isMoved()) << by;
        // Onsets are told to 10 ms, and are heard a little late.
        EXPECT_NEAR(run.later.value, -by, 0.03) << by;
        EXPECT_GE(run.notes, 6) << by << ": one at an edge may meet its own pitch where it is written";
        EXPECT_EQ(run.notes, countTogether(check)) << by << ": all say the same";
        for (std::size_t i = 0; i < bars.claims.size(); ++i)
            EXPECT_TRUE((i >= barFrom && i < barTo) || !check.answers[i].together) << by << ' ' << i;
    }
}

TEST(OffRunJudgement, CorrectsNoNoteOfAMovedBarToItsNeighboursPitch) {
    const ThreeBars bars;
    for (const double by : {0.25, -0.25}) {
        const NoteCheck check = bars.check(bars.withBarMoved(by));
        for (std::size_t i = barFrom; i < barTo; ++i) {
            const ClaimAnswer& answer = check.answers[i];
            EXPECT_FALSE(answer.suggestedMidi) << by << ' ' << i;
            if (answer.verdict == Verdict::Supported || !answer.together) continue;
            EXPECT_TRUE(answer.nothingBegins) << by << ' ' << i;
            ASSERT_TRUE(answer.beginsAt) << by << ' ' << i;
            // The check's own tolerance for an onset.
            EXPECT_NEAR(answer.beginsAt->value, bars.claims[i].range.begin.value, 0.05) << by << ' ' << i;
        }
        EXPECT_TRUE(check.unwritten.empty()) << by << ": what sounds there is written, at another place";
    }
}

TEST(OffRunJudgement, FindsSwungEighthsThatAreMovedByOne) {
    // Two to one: what is on the beat and what is off it are moved by 333 and by 167 ms.
    const ThreeBars bars(0.083);
    std::vector<Claim> claims = bars.claims;
    for (std::size_t i = barFrom; i < barTo; ++i)
        claims[i].range =
            bars.claims[i].range.shifted(bars.claims[i + 1].range.begin - bars.claims[i].range.begin);
    const NoteCheck check = bars.check(claims);
    ASSERT_TRUE(check.answers[barFrom + 3].together);
    EXPECT_NEAR(check.answers[barFrom + 3].together->later.value, -0.25, 0.1);
    for (std::size_t i = barFrom; i < barTo; ++i) {
        const ClaimAnswer& answer = check.answers[i];
        // Each begins at its own place, however far the others are moved.
        if (answer.together && answer.beginsAt) {
            EXPECT_NEAR(answer.beginsAt->value, bars.claims[i].range.begin.value, 0.05) << i;
        }
    }
}

TEST(OffRunJudgement, FindsABarThatIsWrittenInAnotherOctave) {
    const ThreeBars bars;
    for (const int octave : {12, -12}) {
        std::vector<Claim> claims = bars.claims;
        for (std::size_t i = barFrom; i < barTo; ++i)
            claims[i].midi -= octave;
        const NoteCheck check = bars.check(claims);
        EXPECT_EQ(countTogether(check), 8) << octave;
        EXPECT_TRUE(check.unwritten.empty()) << octave << ": all of them are named";
        for (std::size_t i = barFrom; i < barTo; ++i) {
            ASSERT_TRUE(check.answers[i].together) << octave << ' ' << i;
            EXPECT_EQ(check.answers[i].together->semitones, octave);
            EXPECT_EQ(check.answers[i].together->notes, 8);
            EXPECT_EQ(check.answers[i].suggestedMidi, bars.claims[i].midi) << octave << ' ' << i;
            EXPECT_NE(check.answers[i].verdict, Verdict::Supported);
        }
    }
}

TEST(OffRunJudgement, LeavesWhatIsLaidBackOrSwingsAlone) {
    const ThreeBars bars;
    for (const double behind : {-0.04, -0.03, 0.03, 0.04, 0.06}) {
        const NoteCheck check = bars.check(bars.withBarMoved(-behind));
        EXPECT_EQ(countTogether(check), 0) << behind;
        for (const ClaimAnswer& answer : check.answers)
            EXPECT_EQ(answer.verdict, Verdict::Supported) << behind;
    }
    // Written evenly, played two to one.
    EXPECT_EQ(countTogether(ThreeBars(0.083).check(bars.claims)), 0);
}

TEST(OffRunJudgement, LeavesNotesAloneThatAreWrongEachInItsOwnWay) {
    const ThreeBars bars;
    std::vector<Claim> claims = bars.claims;
    const std::vector<int> mistakes{1, -2, 5, -12, 3, -1, 2, 7};
    for (std::size_t i = barFrom; i < barTo; ++i)
        claims[i].midi += mistakes[i - barFrom];
    const NoteCheck check = bars.check(claims);
    EXPECT_EQ(countTogether(check), 0);
    int corrected = 0;
    for (std::size_t i = barFrom; i < barTo; ++i)
        if (check.answers[i].suggestedMidi == bars.claims[i].midi) ++corrected;
    EXPECT_GE(corrected, 6) << "each is corrected by itself";
}

TEST(OffRunJudgement, MakesNoRunOfOneOrTwoNotes) {
    const ThreeBars bars;
    EXPECT_EQ(countTogether(bars.check(bars.withBarMoved(0.25, 10, 12))), 0);
    EXPECT_EQ(countTogether(bars.check(bars.claims)), 0);
}

TEST(OffRunJudgement, AsksOfFewNotesThatTheyLieCloseTogether) {
    const ThreeBars bars;
    std::vector<Claim> claims = bars.withBarMoved(0.25, 10, 14);
    EXPECT_EQ(countTogether(bars.check(claims)), 4);
    claims[11].range.begin += 0.06_s;
    EXPECT_EQ(countTogether(bars.check(claims)), 0);
}

// The same pitch begins on either side of each place: earlier and later are both true.
TEST(OffRunJudgement, MakesNoRunOfRepeatedNotes) {
    AnalysisSound sound{silence(7.5_s), {}};
    std::vector<Claim> claims;
    const std::vector<int> line{62, 64, 65, 67, 72, 72, 72, 72, 72, 72, 65, 64, 62};
    for (std::size_t i = 0; i < line.size(); ++i) {
        const Seconds begin(0.5 + 2 * eighth * static_cast<double>(i));
        const bool isMoved = line[i] == 72;
        claims.push_back({{begin, begin + 0.4_s}, line[i]});
        addTone(sound.left, claims.back().range, line[i]);
        if (isMoved) claims.back().range = claims.back().range.shifted(Seconds(eighth));
    }
    addNoise(sound.left, 0.0005f);
    const auto recording = RecordingEvidence::listen(std::move(sound));
    const auto evidence = recording->passage({0.0_s, 7.5_s});
    const NoteCheck check = checkNotes(*evidence, claims);
    EXPECT_EQ(countTogether(check), 0);
    for (std::size_t i = 4; i < 10; ++i)
        EXPECT_NE(check.answers[i].verdict, Verdict::Supported) << i;
}

TEST(OffRunJudgement, StillListsANoteThatIsLeftOutBesideAMovedBar) {
    const ThreeBars bars;
    std::vector<Claim> claims = bars.withBarMoved(0.25);
    claims.erase(claims.begin() + 4);
    const NoteCheck check = bars.check(claims);
    EXPECT_GE(countTogether(check), 6);
    ASSERT_EQ(check.unwritten.size(), 1u);
    EXPECT_EQ(check.unwritten[0].midi, bars.claims[4].midi);
}

} // namespace
} // namespace earwright
