#include "core/music/Pitch.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

// Octave numbers as in scientific pitch notation, where C4 is middle C and A4 the 440 Hz of ISO 16.
TEST(Pitch, NamesKeysAsScientificPitchNotationDoes) {
    EXPECT_EQ(toString(Pitch{69, {}}), "A4");
    EXPECT_EQ(toString(Pitch{60, {}}), "C4");
    EXPECT_EQ(toString(Pitch{59, {}}), "B3");
    EXPECT_EQ(toString(Pitch{40, {}}), "E2");
    EXPECT_EQ(toString(Pitch{58, {}}), "B♭3");
}

TEST(Pitch, KeepsTheLettersOctaveForUnusualSpellings) {
    EXPECT_EQ(toString(Pitch{59, PitchName{Step::C, -1}}), "C♭4");
    EXPECT_EQ(toString(Pitch{60, PitchName{Step::B, 1}}), "B♯3");
}

// The frequencies of equal temperament at A4 = 440 Hz (ISO 16), as handbooks of acoustics tabulate them: C4
// 261.63, A0 27.50, C8 4186.01 Hz.
TEST(Pitch, HasItsFrequencyInEqualTemperament) {
    EXPECT_DOUBLE_EQ(hertzOf(69), 440);
    EXPECT_NEAR(hertzOf(60), 261.63, 0.005);
    EXPECT_NEAR(hertzOf(21), 27.50, 0.005);
    EXPECT_NEAR(hertzOf(108), 4186.01, 0.005);
    EXPECT_NEAR(hertzOf(69.5), 440 * std::pow(2, 1.0 / 24), 1e-9);
}

TEST(PitchName, KnowsItsPitchClass) {
    EXPECT_EQ((PitchName{Step::E, -1}).pitchClass(), 3);
    EXPECT_EQ((PitchName{Step::C, -1}).pitchClass(), 11);
    EXPECT_EQ((PitchName{Step::B, 2}).pitchClass(), 1);
}

TEST(Pitch, EveryPlainNameSoundsAsItsKey) {
    for (int midi = lowestMidi; midi <= highestMidi; ++midi)
        EXPECT_EQ(plainName(midi).pitchClass(), pitchClassOf(midi)) << midi;
}

} // namespace
} // namespace earwright
