// What stands over a double stop is written once, and is read as that of all its notes.
#include "core/exchange/ChordMarks.h"

#include "core/exchange/MusicXml.h"
#include "core/exchange/MusicXmlMarks.h"
#include "core/exchange/MusicXmlReading.h"
#include "tests/core/engraving/SampleLines.h"

#include <gtest/gtest.h>
#include <string>

namespace earwright {
namespace {

Study doubleStop(const Phrasing& lower, const Phrasing& upper) {
    Study study = studyInFour();
    for (const auto& [midi, phrasing] : {std::pair{60, lower}, {64, upper}}) {
        study.notes.push_back(noteAt(study, Beats(0), Beats(5), midi));
        study.notes.back().phrasing = phrasing;
    }
    return study;
}

std::string textOf(const Study& study) {
    const auto text = musicXml(study);
    EXPECT_TRUE(text.ok());
    return text ? *text : "";
}

std::size_t countOf(const std::string& sign, const std::string& text) {
    std::size_t count = 0;
    for (std::size_t at = text.find(sign); at != std::string::npos; at = text.find(sign, at + 1))
        ++count;
    return count;
}

void expectToComeBack(const Study& study) {
    const auto read = readMusicXml(textOf(study), "double.musicxml");
    ASSERT_TRUE(read.ok());
    EXPECT_TRUE(read->leftOut.empty());
    ASSERT_EQ(read->study.notes.size(), 2u);
    for (std::size_t i = 0; i < 2; ++i)
        EXPECT_EQ(read->study.notes[i].phrasing, study.notes[i].phrasing) << i;
}

TEST(ChordMarks, OfBothNotesStandOnce) {
    Phrasing both;
    both.accented = both.staccato = both.tenuto = both.vibrato = true;
    both.trill = 2;
    both.turn = Turn::FromBelow;
    both.mordent = Mordent::Upper;
    const Study study = doubleStop(both, both);
    const std::string text = textOf(study);
    for (const char* sign :
         {"<accent", "<staccato", "<tenuto", "<trill-mark", "<inverted-turn", "<inverted-mordent"})
        EXPECT_EQ(countOf(sign, text), 1u) << sign;
    EXPECT_EQ(countOf("<wavy-line", text), 4u) << "trill and vibrato, begin and end";
    EXPECT_EQ(countOf(ownSignsWord, text), 0u);
    expectToComeBack(study);
}

// In C major D lies a whole tone over C and F a half one over E.
TEST(ChordMarks, ATrillOfBothToTheNextNoteOfTheKeyStandsOnce) {
    Phrasing lower;
    Phrasing upper;
    lower.trill = 2;
    upper.trill = 1;
    const Study byKey = doubleStop(lower, upper);
    EXPECT_EQ(countOf("<trill-mark", textOf(byKey)), 1u);
    EXPECT_EQ(countOf(ownSignsWord, textOf(byKey)), 0u);
    expectToComeBack(byKey);
    std::swap(lower, upper);
    const Study otherwise = doubleStop(lower, upper);
    EXPECT_EQ(countOf("<trill-mark", textOf(otherwise)), 2u) << "D flat and F sharp";
    expectToComeBack(otherwise);
}

// "The falloff element is an indeterminate slide attached to a single note", and so are scoop, plop and doit
// (MusicXML 4.0).
TEST(ChordMarks, ThatBelongToASingleNoteStandAtEach) {
    Phrasing both;
    both.fall = true;
    both.slideIn = SlideFrom::Below;
    const Study study = doubleStop(both, both);
    EXPECT_EQ(countOf("<falloff", textOf(study)), 2u);
    EXPECT_EQ(countOf("<scoop", textOf(study)), 2u);
    expectToComeBack(study);
}

TEST(ChordMarks, OfOneNoteComeBackToThatOne) {
    Phrasing accented;
    accented.accented = true;
    Phrasing wide = accented;
    wide.trill = 4;
    Phrasing close = accented;
    close.trill = 1;
    Phrasing ghosted;
    ghosted.ghosted = true;
    for (const auto& [one, other] : {std::pair{accented, Phrasing{}},
                                     {accented, ghosted},
                                     {accented, close},
                                     {close, wide},
                                     {wide, wide}}) {
        expectToComeBack(doubleStop(one, other));
        expectToComeBack(doubleStop(other, one));
    }
}

} // namespace
} // namespace earwright
