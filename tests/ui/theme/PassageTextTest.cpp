#include "ui/theme/PassageText.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

std::string signs(const Study& study, std::int64_t bar) {
    return signsAt(study, bar).toStdString();
}

// Common practice: B♭ major has two flats; F♯ minor shares the three sharps of A major.
TEST(PassageText, NamesKeysByTonicAndMode) {
    EXPECT_EQ(keyText({-2, Mode::Major}).toStdString(), "B♭ major");
    EXPECT_EQ(keyText({3, Mode::Minor}).toStdString(), "F♯ minor");
    EXPECT_EQ(keyText({0, Mode::Major}).toStdString(), "C major");
}

TEST(PassageText, TellsSwingByItsRatio) {
    EXPECT_EQ(swingText({}).toStdString(), "even");
    Swing swing;
    swing.ratio = 2;
    EXPECT_EQ(swingText(swing).toStdString(), "swing 2:1");
    swing.noteValue = 16;
    EXPECT_EQ(swingText(swing).toStdString(), "swing of sixteenths 2:1");
}

TEST(PassageText, SaysNothingWhereNothingBegins) {
    EXPECT_EQ(signs(Study{}, 1), "");
    EXPECT_EQ(signs(Study{}, 2), "");
}

TEST(PassageText, TellsAtTheHeadOfABarWhatBeginsThere) {
    Study study;
    study.page.meters = {{5, {3, 4}}};
    study.page.keys = {{5, {-2, Mode::Major}}};
    study.page.tempos = {{Beats(16), "Slowly", 72.0}};
    EXPECT_EQ(signs(study, 1), "4/4") << "others follow";
    EXPECT_EQ(signs(study, 4), "");
    EXPECT_EQ(signs(study, 5), "3/4 · B♭ major · Slowly, ♩ = 72");
    EXPECT_EQ(signs(study, 6), "");
}

// The dotted quarter is counted in 6/8: two thirds as many (common practice).
TEST(PassageText, TellsATempoAsThePageDoes) {
    Study study;
    study.page.tempos = {{Beats(0), "", 136.387}, {Beats(4), "", 96.5}};
    EXPECT_EQ(signs(study, 1), "♩ = 136");
    EXPECT_EQ(signs(study, 2), "♩ = 96.5");
    study.meter = {6, 8};
    study.page.tempos = {{Beats(0), "", 90.0}};
    EXPECT_EQ(signs(study, 1), "6/8 · ♩. = 60");
}

TEST(PassageText, TellsTheMeterOfBarOneWhereItIsNotFourFour) {
    Study study;
    study.meter = {6, 8};
    EXPECT_EQ(signs(study, 1), "6/8");
}

TEST(PassageText, TellsWhereRepeatsAndTheirEndingsAre) {
    Study study;
    Repeat repeat;
    repeat.firstBar = 1;
    repeat.lastBar = 8;
    repeat.times = 2;
    repeat.endingBars = 2;
    study.page.repeats = {repeat};
    EXPECT_EQ(signs(study, 1), "repeat to 8, 2 times");
    EXPECT_EQ(signs(study, 7), "ending 1");
    EXPECT_EQ(signs(study, 9), "ending 2");
}

} // namespace
} // namespace earwright::ui
