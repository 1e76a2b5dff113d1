// Tempo and swing over the line.
#include "core/engraving/LineWords.h"

#include "MusicFont.h"
#include "SampleLines.h"
#include "core/engraving/Engraving.h"

#include <algorithm>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

std::vector<std::string> wordsOf(const PlacedShapes& shapes) {
    std::vector<std::string> words;
    for (const PlacedText& text : shapes.texts)
        if (text.role == TextRole::Tempo) words.push_back(text.text);
    return words;
}

std::vector<Smufl> glyphsOf(const PlacedShapes& shapes) {
    std::vector<Smufl> glyphs;
    for (const PlacedGlyph& glyph : shapes.glyphs)
        glyphs.push_back(glyph.glyph);
    return glyphs;
}

// A triplet of eighths is a quarter and an eighth under a 3: two to one. A dotted eighth is three sixteenths:
// three to one.
TEST(SwingWords, ShowTheNotesThatTheRatioStandsFor) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    const SignedText triplet = swingWords({2, 8}, font);
    EXPECT_THAT(wordsOf(triplet.shapes), ElementsAre("Swing", "="));
    EXPECT_THAT(glyphsOf(triplet.shapes),
                ElementsAre(Smufl::MetNote8thUp, Smufl::MetNote8thUp, Smufl::MetNoteQuarterUp,
                            Smufl::MetNote8thUp, digitOf(Smufl::Tuplet0, 3)));
    EXPECT_THAT(glyphsOf(swingWords({3, 8}, font).shapes),
                ElementsAre(Smufl::MetNote8thUp, Smufl::MetNote8thUp, Smufl::MetNote8thUp,
                            Smufl::MetAugmentationDot, Smufl::MetNote16thUp));
}

// All values halved: an eighth and a sixteenth under a 3, a dotted sixteenth and a thirty-second.
TEST(SwingWords, ShowSixteenthsInNotesHalfAsLong) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    EXPECT_THAT(glyphsOf(swingWords({2, 16}, font).shapes),
                ElementsAre(Smufl::MetNote16thUp, Smufl::MetNote16thUp, Smufl::MetNote8thUp,
                            Smufl::MetNote16thUp, digitOf(Smufl::Tuplet0, 3)));
    EXPECT_THAT(glyphsOf(swingWords({3, 16}, font).shapes),
                ElementsAre(Smufl::MetNote16thUp, Smufl::MetNote16thUp, Smufl::MetNote16thUp,
                            Smufl::MetAugmentationDot, Smufl::MetNote32ndUp));
}

TEST(SwingWords, SayOtherRatiosInFigures) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    EXPECT_THAT(wordsOf(swingWords({1.5, 8}, font).shapes), ElementsAre("Swing eighths 1.5 : 1"));
    EXPECT_THAT(wordsOf(swingWords({1.8, 16}, font).shapes), ElementsAre("Swing sixteenths 1.8 : 1"));
    EXPECT_THAT(wordsOf(swingWords({1, 8}, font).shapes), ElementsAre("Even eighths"));
}

TEST(TempoWords, GiveWordsAndQuartersAMinute) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    const SignedText both = tempoWords({Beats(0), "Medium", 132.0}, {}, font);
    EXPECT_THAT(wordsOf(both.shapes), ElementsAre("Medium", "= 132"));
    EXPECT_THAT(glyphsOf(both.shapes), ElementsAre(Smufl::MetNoteQuarterUp));
    EXPECT_THAT(wordsOf(tempoWords({Beats(0), "", 96.5}, {}, font).shapes), ElementsAre("= 96.5"));
    EXPECT_THAT(wordsOf(tempoWords({Beats(0), "", 136.387}, {}, font).shapes), ElementsAre("= 136"));
    // In 6/8 the dotted quarter is counted: two thirds as many (common practice).
    EXPECT_THAT(wordsOf(tempoWords({Beats(0), "", 90.0}, {6, 8}, font).shapes), ElementsAre("= 60"));
    EXPECT_THAT(glyphsOf(tempoWords({Beats(0), "Slower", {}}, {}, font).shapes), IsEmpty());
}

class LineWords : public testing::Test {
protected:
    void SetUp() override { NEEDS_MUSIC_FONT; }
    static std::vector<std::vector<std::string>> lines(const Study& study, const PageExcerpt& excerpt) {
        std::vector<std::vector<std::string>> words;
        const auto systems = engraveSystems(study, excerpt, {}, musicFont());
        EXPECT_TRUE(systems);
        for (const EngravedSystem& system : *systems)
            words.push_back(wordsOf(system.shapes));
        return words;
    }
};

// Four bars of four beats a line.
TEST_F(LineWords, StandOverTheLineInWhichTheyBegin) {
    Study study = bluesChorus();
    study.page.swings = {{Beats(0), {1.5, 8}}, {Beats(16), {1, 8}}, {Beats(40), {1.8, 8}}};
    study.page.tempos = {{Beats(20), "Slower", {}}};
    EXPECT_THAT(lines(study, wholeStudy(study)),
                ElementsAre(ElementsAre("Swing eighths 1.5 : 1"), ElementsAre("Even eighths", "Slower"),
                            ElementsAre("Swing eighths 1.8 : 1")));
}

TEST_F(LineWords, AreOnTheirBeat) {
    Study study = bluesChorus();
    study.page.tempos = {{Beats(8), "Slower", {}}};
    const auto systems = engraveSystems(study, wholeStudy(study), {}, musicFont());
    ASSERT_TRUE(systems);
    const EngravedSystem& system = systems->front();
    const auto moment = std::find_if(system.moments.begin(), system.moments.end(),
                                     [](const PlacedMoment& one) { return one.at == Beats(8); });
    ASSERT_NE(moment, system.moments.end());
    const auto word = std::find_if(system.shapes.texts.begin(), system.shapes.texts.end(),
                                   [](const PlacedText& text) { return text.text == "Slower"; });
    ASSERT_NE(word, system.shapes.texts.end());
    EXPECT_NEAR(word->at.x, moment->x, 1e-9);
}

TEST_F(LineWords, AreRepeatedWhereAnExcerptBeginsWithinThem) {
    Study study = bluesChorus();
    study.page.swings = {{Beats(0), {1.5, 8}}};
    study.page.tempos = {{Beats(0), "Medium", {}}};
    PageExcerpt excerpt;
    excerpt.firstBar = 5;
    excerpt.lastBar = 12;
    EXPECT_THAT(lines(study, excerpt),
                ElementsAre(ElementsAre("Medium", "Swing eighths 1.5 : 1"), IsEmpty()));
}

TEST_F(LineWords, LeaveNotesThatWereNeverSwungUnsaid) {
    Study study = bluesChorus();
    study.page.swings = {{Beats(0), {1, 8}}};
    EXPECT_THAT(lines(study, wholeStudy(study)), ElementsAre(IsEmpty(), IsEmpty(), IsEmpty()));
}

} // namespace
} // namespace earwright
