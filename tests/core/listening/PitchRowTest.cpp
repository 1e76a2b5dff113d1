#include "core/listening/PitchRow.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {

TEST(PitchRow, AddsUpToOneOnceNormalised) {
    PitchRow row;
    for (std::size_t i = 0; i < pitchCount; ++i)
        row[i] = 100.0f + static_cast<float>(i % 7);
    row.normalise();
    double sum = 0;
    for (const float log : row.log)
        sum += std::exp(static_cast<double>(log));
    EXPECT_NEAR(sum, 1, 1e-4);
}

TEST(PitchRow, KnowsItsBestAndHowFarItLeads) {
    PitchRow row;
    row[10] = 3;
    row[20] = 1;
    EXPECT_EQ(row.best(), 10u);
    EXPECT_FLOAT_EQ(row.leadOf(10), 2);
    EXPECT_FLOAT_EQ(row.leadOf(20), -2);
}

TEST(PitchRow, CapsAFarLead) {
    PitchRow row;
    row[10] = 50;
    EXPECT_FLOAT_EQ(row.leadOf(10), 12);
    EXPECT_FLOAT_EQ(row.leadOf(11), -12);
}

TEST(PitchRow, SumsLogsWithoutOverflow) {
    // log(e^1000 + e^1000) = 1000 + log 2.
    const std::array<float, 2> logs{1000, 1000};
    EXPECT_NEAR(logSumExp(logs), 1000 + std::log(2.0), 1e-3);
}

} // namespace earwright
