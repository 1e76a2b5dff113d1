#include "ui/desk/PlaceEvidence.h"
#include "ui/desk/RecordingListener.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

/// A track in which an onset has the given probabilities, place after place, 10 ms apart from 1 s on.
OnsetTrack trackOf(const std::vector<double>& probabilities) {
    std::vector<OnsetTrack::Row> rows;
    for (const double probability : probabilities) {
        OnsetTrack::Row row{};
        row.fill(-30);
        row[20] = static_cast<float>(std::log(probability));
        row[OnsetTrack::noOnset] = static_cast<float>(std::log(1 - probability));
        rows.push_back(row);
    }
    return OnsetTrack(Seconds(1), Seconds(0.01), rows);
}

TEST(OnsetTimes, AreThePeaksThatAreLikelierThanNot) {
    const auto times = onsetTimes(trackOf({0.01, 0.3, 0.9, 0.6, 0.01, 0.01, 0.4, 0.2, 0.01, 0.8}));
    ASSERT_EQ(times.size(), 2u);
    EXPECT_NEAR(times[0].value, 1.02, 1e-6);
    EXPECT_NEAR(times[1].value, 1.09, 1e-6);
}

TEST(OnsetTimes, CountTwoPeaksInOneAttackOnce) {
    EXPECT_EQ(onsetTimes(trackOf({0.01, 0.9, 0.6, 0.8, 0.01})).size(), 1u);
}

TEST(OnsetTimes, AreNoneInSilence) {
    EXPECT_TRUE(onsetTimes(trackOf({0.01, 0.02, 0.01})).empty());
    EXPECT_TRUE(onsetTimes(trackOf({})).empty());
}

TEST(OpenOctaves, AreNamedWithTheirShares) {
    const std::vector<PitchStrength> open{{58, 0.8}, {67, 0.2}, {70, 0.5}};
    EXPECT_EQ(openOctaveText(open, nullptr).toStdString(), "The octave is open: B♭3 64\u00a0%, B♭4 25\u00a0%.");
    EXPECT_TRUE(openOctaveText({{58, 0.9}, {70, 0.1}}, nullptr).isEmpty());
    EXPECT_TRUE(openOctaveText({{58, 0.2}, {70, 0.97}}, nullptr).isEmpty()) << "4 and 94 %";
}

} // namespace
} // namespace earwright::ui
