#include "core/check/Placement.h"

#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

using namespace tests;

/// A line alone whose claims lie as far from their onsets as a test wants.
struct Line {
    AnalysisSound sound{silence(Seconds(4)), {}};
    std::vector<Claim> claims;

    Line() {
        const std::vector<int> pitches{62, 64, 65, 67, 69, 70, 69, 67, 65, 64, 62, 60};
        for (std::size_t i = 0; i < pitches.size(); ++i) {
            const Seconds begin(0.5 + 0.25 * static_cast<double>(i));
            claims.push_back({{begin, begin + 0.22_s}, pitches[i]});
            addTone(sound.left, claims.back().range, pitches[i]);
        }
        addNoise(sound.left, 0.0005f);
    }

    /// Every other claim early, the rest late.
    ClaimContext withClaimsOffBy(Seconds distance) const {
        std::vector<Claim> moved = claims;
        for (std::size_t i = 0; i < moved.size(); ++i)
            moved[i].range = moved[i].range.shifted(i % 2 == 0 ? distance : distance * -1);
        return contextOf(*PassageEvidence::listen(sound, 0, {0.0_s, 4.0_s}), moved);
    }
};

std::vector<Verdict> all(Verdict verdict, const ClaimContext& context) {
    return std::vector<Verdict>(context.claims.size(), verdict);
}

TEST(Placement, IsHeldToFortyMillisecondsByClaimsThatLieOnTheirOnsets) {
    const ClaimContext exact = Line().withClaimsOffBy(0.0_s);
    EXPECT_GE(placementTolerance(exact, all(Verdict::Supported, exact)), 0.030_s);
    EXPECT_LE(placementTolerance(exact, all(Verdict::Supported, exact)), 0.040_s);
}

TEST(Placement, AllowsLooseClaimsMore) {
    const ClaimContext loose = Line().withClaimsOffBy(0.030_s);
    EXPECT_EQ(placementTolerance(loose, all(Verdict::Supported, loose)), 0.060_s);
}

TEST(Placement, TakesNothingFromClaimsThatAreNotSupported) {
    const ClaimContext exact = Line().withClaimsOffBy(0.0_s);
    EXPECT_EQ(placementTolerance(exact, all(Verdict::Contradicted, exact)), 0.060_s);
}

TEST(Placement, TellsAPitchThatBeginsAtAClaimFromOneThatBeginsBesideIt) {
    const Line line;
    const int played = line.claims[4].midi;
    EXPECT_FALSE(beginsBeside(line.withClaimsOffBy(0.0_s), 4, played, 0.030_s));
    const ClaimContext late = line.withClaimsOffBy(0.050_s);
    EXPECT_TRUE(beginsBeside(late, 4, played, 0.030_s));
    EXPECT_FALSE(beginsBeside(late, 4, played, 0.060_s));
    EXPECT_FALSE(beginsBeside(late, 4, played + 3, 0.030_s)) << "that pitch begins nowhere near";
}

} // namespace
} // namespace earwright
