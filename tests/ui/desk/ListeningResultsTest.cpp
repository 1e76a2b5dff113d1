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

PitchRow rowOf(std::initializer_list<std::pair<std::size_t, float>> probabilities) {
    PitchRow row;
    row.log.fill(-20);
    for (const auto& [pitch, probability] : probabilities)
        row[pitch] = std::log(probability);
    return row;
}

TEST(PitchStrengths, GiveTheLikeliestPitchTheLargestDotAndLeaveSpecksOut) {
    const auto strengths = strengthsOf(rowOf({{30, 0.64F}, {42, 0.25F}, {44, 0.008F}}));
    ASSERT_EQ(strengths.size(), 2u);
    EXPECT_EQ(strengths[0].midi, lowestHeardMidi + 30);
    EXPECT_NEAR(strengths[0].strength, 0.8, 1e-6); // roots of the probabilities
    EXPECT_EQ(strengths[1].midi, lowestHeardMidi + 42);
    EXPECT_NEAR(strengths[1].strength, 0.5, 1e-6);
}

TEST(PitchStrengths, DoNotFillAColumnThatSaysLittle) {
    // Seven pitches alike, none of which anybody could name: small dots, and no octave joined to another.
    const auto flat = strengthsOf(
        rowOf({{20, 0.14F}, {25, 0.14F}, {32, 0.14F}, {37, 0.14F}, {44, 0.14F}, {49, 0.14F}, {56, 0.14F}}));
    for (const PitchStrength& pitch : flat)
        EXPECT_LT(pitch.strength, 0.4);
    EXPECT_TRUE((ColumnEvidence{{Beats(0), Beats(1)}, flat}.octavePairs().empty()));
    PitchRow even;
    even.normalise();
    EXPECT_TRUE(strengthsOf(even).empty()) << "in silence all pitches are alike";
}

TEST(PitchStrengths, JoinTheOctavesBetweenWhichTheRecordingLeavesTheChoice) {
    const auto strengths = strengthsOf(rowOf({{30, 0.3F}, {42, 0.6F}, {37, 0.06F}, {49, 0.04F}}));
    EXPECT_EQ((ColumnEvidence{{Beats(0), Beats(1)}, strengths}.octavePairs()),
              std::vector<int>{lowestHeardMidi + 30});
}

} // namespace
} // namespace earwright::ui
