#include "core/listening/PitchStrength.h"

#include <cmath>
#include <gtest/gtest.h>
#include <initializer_list>
#include <utility>

namespace earwright {
namespace {

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
    EXPECT_TRUE(octaveRivals(flat).empty());
    PitchRow even;
    even.normalise();
    EXPECT_TRUE(strengthsOf(even).empty()) << "in silence all pitches are alike";
}

TEST(PitchStrengths, JoinTheOctavesBetweenWhichTheRecordingLeavesTheChoice) {
    const auto strengths = strengthsOf(rowOf({{30, 0.3F}, {42, 0.6F}, {37, 0.06F}, {49, 0.04F}}));
    const auto rivals = octaveRivals(strengths);
    ASSERT_EQ(rivals.size(), 2u);
    EXPECT_EQ(rivals[0].midi, lowestHeardMidi + 30);
    EXPECT_EQ(rivals[1].midi, lowestHeardMidi + 42);
    EXPECT_NEAR(rivals[1].probability(), 0.6, 1e-6);
}

TEST(PitchStrengths, LeaveNoChoiceOfOctaveWhereTheOtherIsASpeckOrBothAreUnlikely) {
    EXPECT_TRUE(octaveRivals(strengthsOf(rowOf({{30, 0.9F}, {42, 0.03F}}))).empty());
    EXPECT_TRUE(octaveRivals(strengthsOf(rowOf({{30, 0.2F}, {42, 0.2F}, {33, 0.55F}}))).empty());
}

TEST(PitchStrengths, JoinOctavesThatAreTwoApart) {
    const auto rivals = octaveRivals(strengthsOf(rowOf({{20, 0.5F}, {44, 0.4F}})));
    ASSERT_EQ(rivals.size(), 2u);
    EXPECT_EQ(rivals[1].midi - rivals[0].midi, 24);
}

} // namespace
} // namespace earwright
