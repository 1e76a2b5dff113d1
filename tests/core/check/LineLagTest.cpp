#include "core/check/LineLag.h"

#include "core/listening/RecordingEvidence.h"
#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

/// Tones every quarter of a second, and claims that lie so far before each of them.
struct LaggingLine {
    AnalysisSound sound{silence(Seconds(4)), {}};
    std::vector<Claim> claims;

    explicit LaggingLine(const std::vector<double>& lags) {
        for (std::size_t i = 0; i < lags.size(); ++i) {
            const Seconds begin(0.5 + 0.25 * static_cast<double>(i));
            const int midi = 60 + static_cast<int>(i * 5 % 12);
            addTone(sound.left, {begin, begin + 0.22_s}, midi);
            claims.push_back({{begin - Seconds(lags[i]), begin + 0.22_s - Seconds(lags[i])}, midi});
        }
        addNoise(sound.left, 0.0005f);
    }
    double heard() const {
        const auto recording = RecordingEvidence::listen(sound);
        EXPECT_TRUE(recording);
        const auto evidence = recording->passage({0.0_s, 4.0_s});
        EXPECT_TRUE(evidence);
        return lineLag(*evidence, claims).value;
    }
};

TEST(LineLag, IsWhatAllNotesOfALineHaveInCommon) {
    // Onsets are told to 10 ms.
    EXPECT_NEAR(LaggingLine(std::vector(10, 0.05)).heard(), 0.05, 0.012);
    EXPECT_NEAR(LaggingLine(std::vector(10, -0.07)).heard(), -0.07, 0.012);
    EXPECT_NEAR(LaggingLine({0.05, 0.06, 0.07, 0.06, 0.05, 0.07, 0.06, 0}).heard(), 0.06, 0.015)
        << "one that is on its place does not change it";
}

TEST(LineLag, IsNoughtWhereItIsSmallOrTheNotesDoNotAgree) {
    EXPECT_EQ(LaggingLine(std::vector(10, 0.01)).heard(), 0);
    EXPECT_EQ(LaggingLine({0.07, -0.07, 0.03, -0.03, 0.07, -0.07, 0.03, -0.03}).heard(), 0);
    EXPECT_EQ(LaggingLine(std::vector(4, 0.05)).heard(), 0) << "four notes may lag by chance";
    EXPECT_EQ(LaggingLine(std::vector(10, 0.12)).heard(), 0) << "that is another place of the page";
}

TEST(LineLag, IsNoughtWithoutClaims) {
    EXPECT_EQ(LaggingLine({}).heard(), 0);
}

} // namespace
} // namespace earwright
