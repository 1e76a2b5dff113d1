#include "core/check/StudyListening.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(StudyListening, HearsEverythingWhereNobodyIsNamed) {
    EXPECT_TRUE(lineRangeOf(Study{}).isEverything());
    EXPECT_EQ(bassViewOf(Study{}), View::Both);
    EXPECT_EQ(wishOf(Study{}), ListeningWish{});
}

TEST(StudyListening, HearsTheLineWithinItsInstrument) {
    Study study;
    study.players.line = PitchRange{50, 70};
    EXPECT_EQ(lineRangeOf(study), (LineRange{50, 70}));
    study.players.line = Instrument::Guitar;
    EXPECT_EQ(lineRangeOf(study).lowestMidi, rangeOf(Instrument::Guitar).lowestMidi);
    const HeardPart part{Focus::Left, {}};
    EXPECT_EQ(wishOf(study, part).part, part);
    EXPECT_EQ(wishOf(study, part).line, lineRangeOf(study));
}

TEST(StudyListening, IsNotDeafWhereTheStudyNamesNotesThatCannotBeHeard) {
    Study study;
    study.players.line = PitchRange{12, 50};
    EXPECT_EQ(lineRangeOf(study), (LineRange{28, 50}));
    study.players.line = PitchRange{100, 120};
    EXPECT_TRUE(lineRangeOf(study).isEverything());
}

TEST(StudyListening, HearsTheBassWhereItIs) {
    Study study;
    study.players.bass = StereoPlace::Left;
    EXPECT_EQ(bassViewOf(study), View::Left);
    study.players.bass = StereoPlace::Centre;
    EXPECT_EQ(bassViewOf(study), View::Centre);
    study.players.bass = StereoPlace::Right;
    EXPECT_EQ(bassViewOf(study), View::Right);
}

} // namespace
} // namespace earwright
