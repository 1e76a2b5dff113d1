#include "core/music/PitchNames.h"

#include <cstdlib>
#include <gtest/gtest.h>
#include <string>

namespace earwright {
namespace {

std::string text(int midi) {
    std::string names;
    for (const PitchName& name : namesOf(midi))
        names += (names.empty() ? "" : " ") + toString(name);
    return names;
}

// The table of enharmonic names in every primer: three for each key of the piano, two for the black one
// between G and A (common practice).
TEST(PitchNames, AreThoseOfTheEnharmonicTable) {
    EXPECT_EQ(text(60), "C B♯ D♭♭");
    EXPECT_EQ(text(61), "C♯ D♭ B♯♯");
    EXPECT_EQ(text(62), "D C♯♯ E♭♭");
    EXPECT_EQ(text(63), "D♯ E♭ F♭♭");
    EXPECT_EQ(text(64), "E F♭ D♯♯");
    EXPECT_EQ(text(65), "F E♯ G♭♭");
    EXPECT_EQ(text(66), "F♯ G♭ E♯♯");
    EXPECT_EQ(text(67), "G F♯♯ A♭♭");
    EXPECT_EQ(text(68), "G♯ A♭");
    EXPECT_EQ(text(69), "A G♯♯ B♭♭");
    EXPECT_EQ(text(70), "A♯ B♭ C♭♭");
    EXPECT_EQ(text(-1), "B C♭ A♯♯");
}

TEST(PitchNames, LoseDoubleAccidentalsAndNothingElse) {
    EXPECT_EQ(toString(withoutDoubles({Step::B, -2})), "A");
    EXPECT_EQ(toString(withoutDoubles({Step::E, 2})), "F♯");
    EXPECT_EQ(toString(withoutDoubles({Step::F, -2})), "E♭");
    EXPECT_EQ(toString(withoutDoubles({Step::C, -1})), "C♭");
    for (int midi = 0; midi < 12; ++midi)
        for (const PitchName& name : namesOf(midi)) {
            EXPECT_EQ(withoutDoubles(name).pitchClass(), midi);
            EXPECT_LE(std::abs(withoutDoubles(name).alter), 1);
        }
}

TEST(PitchNames, KnowTheWhiteKeysThatCanBeCalledByABlackOne) {
    EXPECT_TRUE(isWhiteWithAccidental({Step::E, 1}));
    EXPECT_TRUE(isWhiteWithAccidental({Step::C, -1}));
    EXPECT_FALSE(isWhiteWithAccidental({Step::C, 1}));
    EXPECT_FALSE(isWhiteWithAccidental({Step::B, 0}));
}

} // namespace
} // namespace earwright
