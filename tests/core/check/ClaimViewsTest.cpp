#include "core/check/ClaimViews.h"

#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

using namespace tests;

constexpr int manyNotes = 40;
constexpr Seconds noteLength{0.25};

int midiOf(int note) {
    return 60 + (note * 5) % 12;
}

std::vector<Claim> claims(int count) {
    std::vector<Claim> all;
    for (int note = 0; note < count; ++note) {
        const Seconds at = noteLength * note + 0.5_s;
        all.push_back({{at, at + noteLength}, midiOf(note)});
    }
    return all;
}

/// The line on the left, other tones on the right.
PassageEvidence lineOnTheLeft() {
    AnalysisSound sound;
    const Seconds length = noteLength * manyNotes + 1.0_s;
    sound.left = silence(length);
    sound.right = silence(length);
    for (const Claim& claim : claims(manyNotes)) {
        addTone(sound.left, claim.range, claim.midi);
        addTone(sound.right, claim.range, claim.midi - 9);
    }
    return *PassageEvidence::listen(sound, 0, {0.0_s, length});
}

bool saysNothing(const PitchRow& row) {
    return row.log == PitchRow{}.log;
}

TEST(ClaimViews, GivesUpAViewThatIsHopelesslyBehindAndHearsTheOthersAsEver) {
    const PassageEvidence evidence = lineOnTheLeft();
    const std::vector<Claim> written = claims(manyNotes);
    const ClaimViews heard = hearClaims(evidence, written);
    const auto left = static_cast<std::size_t>(View::Left);
    const auto right = static_cast<std::size_t>(View::Right);
    std::vector<Range<Seconds>> spans;
    for (const Claim& claim : written)
        spans.push_back(claim.range);
    // Heard anew, and in this view alone, which rounds otherwise.
    const std::vector<PitchRow> all = lineOnTheLeft().spans(left, spans);
    for (std::size_t i = 0; i < written.size(); ++i) {
        for (std::size_t pitch = 0; pitch < all[i].log.size(); ++pitch)
            EXPECT_NEAR(heard.rows[left][i][pitch], all[i][pitch], 1e-3) << i;
        // Every fourth was heard there, before it was given up.
        EXPECT_EQ(saysNothing(heard.rows[right][i]), i % 4 != 0) << i;
    }
    EXPECT_LT(heard.sureness[right], heard.sureness[left] - 1.5);
}

/// The line a little left of the middle, so that every view hears it.
PassageEvidence lineNearTheMiddle() {
    AnalysisSound sound;
    const Seconds length = noteLength * manyNotes + 1.0_s;
    sound.left = silence(length);
    for (const Claim& claim : claims(manyNotes))
        addTone(sound.left, claim.range, claim.midi);
    for (const float sample : sound.left)
        sound.right.push_back(0.7f * sample);
    return *PassageEvidence::listen(sound, 0, {0.0_s, length});
}

TEST(ClaimViews, HearsMostClaimsInThreeViewsWhereAllHearThemAlike) {
    const ClaimViews heard = hearClaims(lineNearTheMiddle(), claims(manyNotes));
    ASSERT_EQ(heard.rows.size(), 5u);
    const auto isWhole = [](const std::vector<PitchRow>& rows) {
        return std::ranges::none_of(rows, saysNothing);
    };
    EXPECT_EQ(std::ranges::count_if(heard.rows, isWhole), 3);
    EXPECT_TRUE(isWhole(heard.rows[static_cast<std::size_t>(View::Both)])) << "which is to win a tie";
    for (std::size_t view = 0; view < heard.rows.size(); ++view)
        if (!isWhole(heard.rows[view])) {
            EXPECT_LT(heard.sureness[view], *std::ranges::max_element(heard.sureness) - 1.4) << view;
        }
}

TEST(ClaimViews, HearsAFewClaimsInEveryView) {
    const PassageEvidence evidence = lineOnTheLeft();
    const ClaimViews heard = hearClaims(evidence, claims(10));
    ASSERT_EQ(heard.rows.size(), 5u);
    for (const std::vector<PitchRow>& rows : heard.rows)
        for (const PitchRow& row : rows)
            EXPECT_FALSE(saysNothing(row));
}

TEST(ClaimViews, AreAllAlikeWithoutClaims) {
    const ClaimViews heard = hearClaims(lineOnTheLeft(), {});
    EXPECT_EQ(heard.sureness, std::vector<double>(5, 0.0));
}

} // namespace
} // namespace earwright
