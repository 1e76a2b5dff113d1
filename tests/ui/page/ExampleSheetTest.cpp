#include "ui/page/ExampleSheet.h"

#include "tests/ui/page/WrittenStudy.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

TEST(ExampleSheet, HasEachWrittenPhraseUnderItsNameWithItsTempo) {
    Study study = writtenStudy();
    study.spans.push_back({SpanId{91}, SpanKind::Phrase, "nothing written", {Seconds(4), Seconds(8)}});
    const EngravingOptions options = sheetOptions(study, {});
    ASSERT_EQ(options.excerpts.size(), 1u);
    EXPECT_EQ(options.excerpts[0].heading, "turn");
    EXPECT_EQ(options.excerpts[0].beatsPerMinute, 120);
    EXPECT_EQ(options.excerpts[0].firstBar, 1);
    EXPECT_EQ(options.excerpts[0].lastBar, 2);
}

TEST(ExampleSheet, NumbersItsExamplesWhereThereAreSeveral) {
    Study study = writtenStudy();
    study.spans[1].range.end = Seconds(2);
    study.spans.push_back({SpanId{91}, SpanKind::Phrase, "", {Seconds(2), Seconds(4)}});
    const EngravingOptions options = sheetOptions(study, {});
    ASSERT_EQ(options.excerpts.size(), 2u);
    EXPECT_EQ(options.excerpts[0].heading, "1. turn");
    EXPECT_EQ(options.excerpts[1].heading, "Example 2");
    EXPECT_EQ(examplesOf(study, {}), (std::vector{SpanId{90}, SpanId{91}}));
}

TEST(ExampleSheet, LeavesOutPhrasesThatWereNotChosen) {
    ExampleWish wish;
    wish.phrases = {SpanId{5}};
    EXPECT_TRUE(sheetOptions(writtenStudy(), wish).excerpts.empty());
}

TEST(ExampleSheet, GivesEveryNoteAPlaceOnTheStringsOrNone) {
    EXPECT_EQ(sheetOptions(writtenStudy(), {}).places.size(), 8u);
    ExampleWish without;
    without.tablature = false;
    EXPECT_EQ(sheetOptions(writtenStudy(), without).strings, 0);
    ExampleWish alone;
    alone.staff = false;
    EXPECT_FALSE(sheetOptions(writtenStudy(), alone).staff);
    EXPECT_EQ(sheetOptions(writtenStudy(), alone).strings, 6);
}

TEST(ExampleSheet, SetsALineOfTextAndTheTempoWithEachPhrase) {
    const Study study = writtenStudy();
    const Span phrase = study.spansOf(SpanKind::Phrase).front();
    ExampleWish wish;
    wish.words[phrase.id] = "Watch the third.";
    wish.title = "Two ways down";
    EXPECT_EQ(titledFor(study, wish).title, "Two ways down");
    const PageExcerpt said = sheetOptions(study, wish).excerpts.front();
    EXPECT_EQ(said.words, "Watch the third.");
    const Range<Beats> beats = study.beatsOf(phrase);
    EXPECT_NEAR(said.beatsPerMinute.value_or(0),
                60 * (beats.end - beats.begin).toDouble() / phrase.range.length().value, 0.5);
    wish.tempo = false;
    EXPECT_FALSE(sheetOptions(study, wish).excerpts.front().beatsPerMinute);
}

TEST(ExampleSheet, IsAsWideAsItsPaper) {
    ExampleWish letter;
    letter.paper = letterPaper; // ANSI/ASME Y14.1, size A: 8.5 by 11 inches
    EXPECT_NEAR(sheetOptions(writtenStudy(), letter).pageWidth * 1.75, 215.9, 1e-9);
}

} // namespace
} // namespace earwright::ui
