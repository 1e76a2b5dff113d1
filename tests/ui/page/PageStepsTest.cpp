#include "ui/page/PageSteps.h"

#include "ui/page/ReadingChoices.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

TEST(PageSteps, GoThroughAllReadingsAndBackToTheFirst) {
    PageWish wish;
    std::vector<Reading> seen;
    for (std::size_t i = 0; i < readingChoices().size(); ++i) {
        wish = nextReading(wish).wish;
        seen.push_back(wish.reading);
    }
    EXPECT_EQ(seen, (std::vector<Reading>{Reading::BFlat, Reading::EFlat, Reading::Tenor, Reading::Baritone,
                                          Reading::GuitarOctave, Reading::Concert}));
    EXPECT_EQ(wish, PageWish{}) << "nothing else has changed";
}

TEST(PageSteps, SayWhatThePageIsLikeNow) {
    EXPECT_EQ(nextReading({}).said, QStringLiteral("Notes on the page: For B♭ instruments."));
    EXPECT_EQ(nextClef({}).said, QStringLiteral("Clef on the page: Treble."));
    EXPECT_EQ(tablatureInOrOut({}).said, QStringLiteral("The page shows the staff alone."));
    EXPECT_EQ(degreesInOrOut({}).said, QStringLiteral("The page shows what each note is on its chord."));
    EXPECT_EQ(larger({}).said, QStringLiteral("The page is drawn at 125 %."));
}

TEST(PageSteps, BehindTheLastClefComesTheOneThatFits) {
    PageWish wish;
    wish.clef = Clef::Bass;
    EXPECT_EQ(nextClef(wish).wish.clef, std::nullopt);
}

TEST(PageSteps, GoFromOneBarToALineToAsManyAsFit) {
    PageWish wish;
    for (int i = 0; i < 5; ++i)
        wish = fewerBars(wish).wish;
    EXPECT_EQ(wish.barsPerLine, 1);
    for (int bars = 2; bars <= 8; ++bars) {
        wish = moreBars(wish).wish;
        EXPECT_EQ(wish.barsPerLine, bars);
    }
    for (int i = 0; i < 2; ++i) {
        const PageStep step = moreBars(wish);
        EXPECT_EQ(step.said, QStringLiteral("Bars to a line of the page: As many as fit."));
        wish = step.wish;
        EXPECT_EQ(wish.barsPerLine, std::nullopt);
    }
    EXPECT_EQ(fewerBars(wish).wish.barsPerLine, 8);
    EXPECT_EQ(fewerBars({}).said, QStringLiteral("Bars to a line of the page: 3."));
}

TEST(PageSteps, TakeBackWhatTheySwitched) {
    const PageWish wish;
    for (PageStep (*step)(const PageWish&) : {tablatureInOrOut, chordSymbolsInOrOut, degreesInOrOut}) {
        const PageWish once = step(wish).wish;
        EXPECT_NE(once, wish);
        EXPECT_EQ(step(once).wish, wish);
    }
    EXPECT_EQ(smaller(larger(wish).wish).wish, wish);
}

} // namespace
} // namespace earwright::ui
