#include "core/check/StudyListening.h"

#include <gtest/gtest.h>
#include <utility>
#include <vector>

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

TEST(StudyListening, KnowsByTheInstrumentsNameHowItsTonesAreMade) {
    Study study;
    EXPECT_EQ(characterOf(study), LineCharacter::Unknown);
    const std::vector<std::pair<const char*, LineCharacter>> known{
        {"guitar", LineCharacter::Plucked}, {"bass", LineCharacter::Plucked}, {"tenor", LineCharacter::Blown},
        {"trombone", LineCharacter::Blown}, {"voice", LineCharacter::Held},   {"violin", LineCharacter::Held},
        {"piano", LineCharacter::Unknown},  {"E2-E6", LineCharacter::Unknown}};
    for (const auto& [word, character] : known) {
        study.players.line = lineInstrumentFrom(word);
        ASSERT_TRUE(study.players.line) << word;
        EXPECT_EQ(characterOf(study), character) << word;
    }
}

TEST(StudyListening, KnowsTheCharacterOfAnInstrumentWithoutANameAndHearsAllItMayPlay) {
    Study study;
    const std::vector<std::pair<const char*, LineCharacter>> kinds{
        {"plucked", LineCharacter::Plucked}, {"wind", LineCharacter::Blown}, {"bowed", LineCharacter::Held}};
    for (const auto& [word, character] : kinds) {
        study.players.line = lineInstrumentFrom(word);
        ASSERT_TRUE(study.players.line) << word;
        EXPECT_EQ(characterOf(study), character) << word;
        EXPECT_TRUE(lineRangeOf(study).isEverything()) << word;
    }
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
