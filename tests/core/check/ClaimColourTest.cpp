#include "core/check/ClaimColour.h"

#include "core/check/ClaimContext.h"
#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

constexpr Seconds noteLength{0.3};

/// A line of twelve notes, each claimed as it is; the last two are struck together.
struct Line {
    AnalysisSound sound{silence(6.0_s), {}};
    std::vector<Claim> claims;

    Line() {
        const std::vector<int> pitches{60, 62, 64, 65, 67, 65, 64, 62, 60, 59, 60, 64};
        for (std::size_t i = 0; i < pitches.size(); ++i) {
            const Seconds begin(0.5 + 0.4 * static_cast<double>(std::min<std::size_t>(i, 10)));
            claims.push_back({{begin, begin + noteLength}, pitches[i]});
            addTone(sound.left, claims.back().range, pitches[i]);
        }
    }
    PassageEvidence evidence() const { return *PassageEvidence::listen(sound, 0, {0.0_s, 6.0_s}); }
};

LineColour colourOfClaims(const PassageEvidence& evidence, const std::vector<Claim>& claims) {
    const ViewBlend alone({0});
    return colourWhereClaimed(claims, evidence, alone, alone.onsets(evidence));
}

TEST(ClaimColour, TellsWhatIsStruckTogether) {
    const std::vector<Claim> told = toldWhatIsStruckTogether(Line().claims);
    for (std::size_t i = 0; i < told.size(); ++i)
        EXPECT_EQ(told[i].isStruckTogether, i >= 10) << i;
}

TEST(ClaimColour, IsTheSameWhateverPitchesAreWritten) {
    const Line line;
    const PassageEvidence evidence = line.evidence();
    std::vector<Claim> wrong = line.claims;
    for (Claim& claim : wrong)
        claim.midi += 12;
    const LineColour colour = colourOfClaims(evidence, line.claims);
    EXPECT_FALSE(colour.isPlain());
    EXPECT_EQ(colourOfClaims(evidence, wrong), colour);
}

TEST(ClaimColour, LearnsFromSingleNotesAlone) {
    const Line line;
    const PassageEvidence evidence = line.evidence();
    const std::vector<Claim> told = toldWhatIsStruckTogether(line.claims);
    const std::vector<Claim> single(told.begin(), told.begin() + 10);
    EXPECT_EQ(colourOfClaims(evidence, told), colourOfClaims(evidence, single));
    const std::vector<Claim> together(told.begin() + 10, told.end());
    EXPECT_TRUE(colourOfClaims(evidence, together).isPlain());
}

TEST(ClaimColour, IsNotHeardInNotesStruckTogether) {
    const Line line;
    const PassageEvidence evidence = line.evidence();
    const ClaimContext context = contextOf(evidence, toldWhatIsStruckTogether(line.claims));
    EXPECT_FALSE(context.colour.isPlain());
    for (const std::size_t claim : {3u, 10u, 11u}) {
        const PitchRow plain = evidence.spans(0, {line.claims[claim].range}).front();
        float farthest = 0;
        for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
            farthest = std::max(farthest, std::abs(context.own[claim][pitch] - plain[pitch]));
        if (claim >= 10)
            EXPECT_LT(farthest, 1e-3f) << claim;
        else
            EXPECT_GT(farthest, 0.1f) << claim;
    }
}

} // namespace
} // namespace earwright
