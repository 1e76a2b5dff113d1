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
    const PitchRow context = neighbourEvidence(rows, spans, SpanOf::Claim)[1];
    EXPECT_GT(context[30], context[42] + 3);
}

TEST(MelodyPrior, GivesTheMarginalsOfEveryPathCountedOut) {
    // The definition of what the forward-backward algorithm computes (Rabiner 1989, section III): the sum
    // over all paths through a pitch. Three spans, the second step across a rest, evidence of no pattern.
    std::vector<PitchRow> rows(3);
    for (std::size_t span = 0; span < rows.size(); ++span)
        for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
            rows[span][pitch] = static_cast<float>(6 * std::sin(static_cast<double>(7 * pitch + 5 * span)));
    const std::vector<Range<Seconds>> spans{{0.0_s, 0.2_s}, {0.2_s, 0.4_s}, {1.4_s, 1.6_s}};
    std::vector<std::vector<double>> sums(3, std::vector<double>(pitchCount, 0));
    for (std::size_t a = 0; a < pitchCount; ++a)
        for (std::size_t b = 0; b < pitchCount; ++b)
            for (std::size_t c = 0; c < pitchCount; ++c) {
                const double path = std::exp(static_cast<double>(rows[0][a] + melodyStep(a, b) + rows[1][b] +
                                                                 0.5f * melodyStep(b, c) + rows[2][c]));
                sums[0][a] += path;
                sums[1][b] += path;
                sums[2][c] += path;
            }
    const auto context = neighbourEvidence(rows, spans, SpanOf::Claim);
    for (std::size_t span = 0; span < rows.size(); ++span)
        for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
            EXPECT_NEAR(static_cast<double>(rows[span][pitch] + context[span][pitch]),
                        std::log(sums[span][pitch]), 1e-3)
                << span << " " << pitch;
}

TEST(MelodyPrior, TakesARepeatedPitchForOneThatSoundsOnWhereANoteIsKnownToBegin) {
    // The middle span hears the pitch before it and a step above alike.
    std::vector<PitchRow> rows(3);
    for (PitchRow& row : rows)
        row.log.fill(-10);
    rows[0][30] = rows[2][33] = 0;
    rows[1][30] = rows[1][31] = 0;
    const std::vector<Range<Seconds>> spans{{0.0_s, 0.2_s}, {0.2_s, 0.4_s}, {0.4_s, 0.6_s}};
    const PitchRow claimed = neighbourEvidence(rows, spans, SpanOf::Claim)[1];
    const PitchRow note = neighbourEvidence(rows, spans, SpanOf::Note)[1];
    EXPECT_GT(note[31] - note[30], claimed[31] - claimed[30] + 1);
    EXPECT_GT(note[31], note[30] + 1);
}

TEST(MelodyPrior, CountsLessAcrossARest) {
    EXPECT_EQ(melodyWeight({0.0_s, 1.0_s}, {1.1_s, 2.0_s}), 1);
    EXPECT_EQ(melodyWeight({0.0_s, 1.0_s}, {1.6_s, 2.0_s}), 0.5);
}

} // namespace
} // namespace earwright
