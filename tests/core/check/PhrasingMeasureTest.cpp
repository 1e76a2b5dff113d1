#include "core/check/PhrasingMeasure.h"

#include "core/check/PhrasingMark.h"
#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

/// Eight notes; one of them late, one soft.
struct PlayedLine {
    AnalysisSound sound{silence(Seconds(5)), {}};
    std::vector<PhrasingClaim> claims;
    static constexpr std::size_t late = 3, soft = 5;

    PlayedLine() {
        for (std::size_t i = 0; i < 8; ++i) {
            const Seconds written(1 + 0.3 * static_cast<double>(i));
            const Seconds played = i == late ? written + 0.03_s : written;
            const int midi = 60 + static_cast<int>(2 * i);
            claims.push_back({{written, written + 0.28_s}, midi, {}});
            addTone(sound.left, {played, written + 0.26_s}, midi, i == soft ? 0.05f : 0.2f);
        }
    }
    std::vector<NotePlaying> measured() const {
        return measurePhrasing(StereoViews(sound, {0.5_s, 4.0_s}), 0, claims);
    }
};

TEST(PhrasingMeasure, ReportsANoteBehindTheBeatAndNeverJudgesIt) {
    // Soloists play about 30 ms behind at medium tempo (studies of the Weimar Jazz Database).
    const auto notes = PlayedLine().measured();
    for (std::size_t i = 0; i < notes.size(); ++i) {
        ASSERT_TRUE(notes[i].begins) << i;
        // The steps are 2.5 ms and the attack lasts 6 ms.
        EXPECT_NEAR(notes[i].behind.value, i == PlayedLine::late ? 0.030 : 0.0, 0.008) << i;
    }
    EXPECT_TRUE(judgePhrasing({}, notes[PlayedLine::late]).written.empty());
    EXPECT_TRUE(judgePhrasing({}, notes[PlayedLine::late]).unwritten.empty());
}

TEST(PhrasingMeasure, HearsAGhostedNoteAndContradictsOneThatIsNot) {
    const auto notes = PlayedLine().measured();
    // A quarter of the amplitude is 12 dB less.
    ASSERT_TRUE(notes[PlayedLine::soft].loudnessDb);
    EXPECT_NEAR(*notes[PlayedLine::soft].loudnessDb, -12, 2.5);
    Phrasing ghosted;
    ghosted.ghosted = true;
    const MarkAnswer supported{PhrasingMark::Ghost, Verdict::Supported};
    const MarkAnswer contradicted{PhrasingMark::Ghost, Verdict::Contradicted};
    EXPECT_EQ(judgePhrasing(ghosted, notes[PlayedLine::soft]).written, std::vector{supported});
    EXPECT_EQ(judgePhrasing(ghosted, notes[2]).written, std::vector{contradicted});
    EXPECT_EQ(judgePhrasing({}, notes[PlayedLine::soft]).unwritten, std::vector{PhrasingMark::Ghost});
}

TEST(PhrasingMeasure, AnswersInTheOrderOfTheClaims) {
    PlayedLine line;
    const auto inOrder = line.measured();
    std::reverse(line.claims.begin(), line.claims.end());
    const auto reversed = line.measured();
    ASSERT_EQ(reversed.size(), inOrder.size());
    for (std::size_t i = 0; i < inOrder.size(); ++i)
        EXPECT_EQ(reversed[i].heard, inOrder[inOrder.size() - 1 - i].heard);
}

} // namespace
} // namespace earwright
