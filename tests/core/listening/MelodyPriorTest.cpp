#include "core/listening/MelodyPrior.h"

#include "tests/core/listening/SyntheticSound.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

TEST(MelodyPrior, HoldsProbabilitiesForEveryPitch) {
    for (std::size_t from = 0; from < pitchCount; ++from) {
        double sum = 0;
        for (std::size_t to = 0; to < pitchCount; ++to)
            sum += std::exp(static_cast<double>(melodyStep(from, to)));
        EXPECT_NEAR(sum, 1, 1e-4);
    }
}

TEST(MelodyPrior, FindsStepsLikelierThanLeaps) {
    EXPECT_GT(melodyStep(30, 31), melodyStep(30, 33));
    EXPECT_GT(melodyStep(30, 33), melodyStep(30, 42));
    EXPECT_GT(melodyStep(30, 42), melodyStep(30, 43));
    EXPECT_GT(melodyStep(30, 31), melodyStep(30, 30));
}

TEST(MelodyPrior, LetsNeighboursDecideBetweenTwoOctaves) {
    // The middle span hears pitch 30 and its octave 42 alike; both neighbours hear 31.
    std::vector<PitchRow> rows(3);
    for (PitchRow& row : rows)
        row.log.fill(-10);
    rows[0][31] = rows[2][31] = 0;
    rows[1][30] = rows[1][42] = 0;
    const std::vector<Range<Seconds>> spans{{0.0_s, 0.2_s}, {0.2_s, 0.4_s}, {0.4_s, 0.6_s}};
    const PitchRow context = neighbourEvidence(rows, spans)[1];
    EXPECT_GT(context[30], context[42] + 3);
}

TEST(MelodyPrior, CountsLessAcrossARest) {
    EXPECT_EQ(melodyWeight({0.0_s, 1.0_s}, {1.1_s, 2.0_s}), 1);
    EXPECT_EQ(melodyWeight({0.0_s, 1.0_s}, {1.6_s, 2.0_s}), 0.5);
}

} // namespace
} // namespace earwright
