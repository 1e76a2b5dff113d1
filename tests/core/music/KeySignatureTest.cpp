#include "core/music/KeySignature.h"

#include <array>
#include <gtest/gtest.h>
#include <string>

namespace earwright {
namespace {

// The circle of fifths, as every rudiments of music has it (common practice).
TEST(KeySignature, NamesItsTonicRoundTheCircleOfFifths) {
    const std::array<std::string, 15> majors{"C♭", "G♭", "D♭", "A♭", "E♭", "B♭", "F", "C",
                                             "G",  "D",  "A",  "E",  "B",  "F♯", "C♯"};
    const std::array<std::string, 15> minors{"A♭", "E♭", "B♭", "F",  "C",  "G",  "D", "A",
                                             "E",  "B",  "F♯", "C♯", "G♯", "D♯", "A♯"};
    for (int fifths = -7; fifths <= 7; ++fifths) {
        const auto at = static_cast<std::size_t>(fifths + 7);
        EXPECT_EQ(toString(KeySignature{fifths, Mode::Major}.tonic()), majors[at]);
        EXPECT_EQ(toString(KeySignature{fifths, Mode::Minor}.tonic()), minors[at]);
    }
}

TEST(KeySignature, AltersItsLettersInTheOrderOfSharpsAndFlats) {
    const KeySignature aMajor{3, Mode::Major};
    for (const Step step : {Step::F, Step::C, Step::G})
        EXPECT_EQ(aMajor.alterOf(step), 1);
    EXPECT_EQ(aMajor.alterOf(Step::D), 0);
    const KeySignature eFlatMajor{-3, Mode::Major};
    for (const Step step : {Step::B, Step::E, Step::A})
        EXPECT_EQ(eFlatMajor.alterOf(step), -1);
    EXPECT_EQ(eFlatMajor.alterOf(Step::D), 0);
}

TEST(KeySignature, HasSevenPitchesAndTheirNeighbours) {
    const KeySignature bFlat{-2, Mode::Major};
    int count = 0;
    for (int midi = 60; midi < 72; ++midi)
        count += bFlat.contains(midi) ? 1 : 0;
    EXPECT_EQ(count, 7);
    EXPECT_EQ(bFlat.upperNeighbour(62), 63) << "D to E flat";
    EXPECT_EQ(bFlat.lowerNeighbour(60), 58) << "C to B flat";
    EXPECT_EQ(bFlat.upperNeighbour(61), 62) << "from D flat, outside the scale, to D";
}

} // namespace
} // namespace earwright
