#include "core/music/StringTuning.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using Strings = std::vector<int>;

// MIDI number 60 is C4, so a guitar's open strings from the highest are 64 59 55 50 45 40 (common practice).
TEST(Strings, AreReadAsPlayersSayThem) {
    EXPECT_EQ(readStrings("E2 A2 D3 G3 B3 E4"), (Strings{64, 59, 55, 50, 45, 40}));
    EXPECT_EQ(readStrings("E1, A1, D2, G2"), (Strings{43, 38, 33, 28}));
    EXPECT_EQ(readStrings("Bb1 F#2"), (Strings{42, 34}));
    // A banjo's short fifth string is higher than the fourth.
    EXPECT_EQ(readStrings("G4 D3 G3 B3 D4"), (Strings{62, 59, 55, 50, 67}));
}

TEST(Strings, FindTheirOctavesUpwardsFromTheLowest) {
    EXPECT_EQ(readStrings("EADGBE"), (Strings{64, 59, 55, 50, 45, 40}));
    EXPECT_EQ(readStrings("dadgad"), (Strings{62, 57, 55, 50, 45, 38}));
    EXPECT_EQ(readStrings("B E A D G B E"), (Strings{64, 59, 55, 50, 45, 40, 35}));
}

TEST(Strings, ThatAreNoNotesOrTooManyAreRefused) {
    for (const char* text : {"", "  ", "H2", "E2 x", "E2 A2 D3 G3 B3 E4 A4 D5 G5", "2", "E-"})
        EXPECT_FALSE(readStrings(text)) << text;
}

TEST(Strings, AreWrittenSoThatTheyCanBeReadAgain) {
    for (const NamedTuning& named : namedTunings())
        EXPECT_EQ(readStrings(writtenStrings(named.tuning.strings)), named.tuning.strings) << named.name;
    // As the instruments are tuned (common practice); a ukulele's fourth string is above the third.
    const auto tuned = [](const std::string& name) {
        for (const NamedTuning& named : namedTunings())
            if (named.name == name) return writtenStrings(named.tuning.strings);
        return std::string();
    };
    EXPECT_EQ(tuned("Guitar, D A D G A D"), "D2 A2 D3 G3 A3 D4");
    EXPECT_EQ(tuned("Guitar, seven strings"), "B1 E2 A2 D3 G3 B3 E4");
    EXPECT_EQ(tuned("Bass, six strings"), "B0 E1 A1 D2 G2 C3");
    EXPECT_EQ(tuned("Mandolin"), "G3 D4 A4 E5");
    EXPECT_EQ(tuned("Ukulele, high G"), "G4 C4 E4 A4");
    EXPECT_EQ(writtenStrings({64, 59, 55, 50, 45, 40}), "E2 A2 D3 G3 B3 E4");
}

TEST(StringTuning, RefusesWhatIsNoInstrument) {
    EXPECT_TRUE(isPlayable({}));
    EXPECT_FALSE(isPlayable({{}}));
    EXPECT_FALSE(isPlayable({std::vector<int>(9, 40)}));
    EXPECT_FALSE(isPlayable({{64}, 22, 22}));
    EXPECT_FALSE(isPlayable({{64}, 22, -1}));
    EXPECT_FALSE(isPlayable({{200}}));
    EXPECT_FALSE(isPlayable({{64}, 0}));
}

} // namespace
} // namespace earwright
