#include "ui/desk/DeskCursor.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

/// Bars of two seconds; phrase "a" is bar 1 and half of bar 2, "b" is bar 4.
Study marked() {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}});
    study.spans = {{SpanId{1}, SpanKind::Phrase, "a", {Seconds(0), Seconds(3)}},
                   {SpanId{2}, SpanKind::Phrase, "b", {Seconds(6), Seconds(8)}}};
    return study;
}

TEST(DeskCursor, TurnsToThePhraseTheEarEnters) {
    DeskCursor cursor;
    EXPECT_TRUE(cursor.follow(marked(), Seconds(1)));
    EXPECT_EQ(cursor.page().phrase, SpanId{1});
    EXPECT_FALSE(cursor.follow(marked(), Seconds(2.5)));
    EXPECT_TRUE(cursor.follow(marked(), Seconds(7)));
    EXPECT_EQ(cursor.page().phrase, SpanId{2});
}

TEST(DeskCursor, ShowsTwoBarsWhereNoPhraseIs) {
    DeskCursor cursor;
    cursor.follow(marked(), Seconds(5)); // bar 3
    EXPECT_FALSE(cursor.page().phrase);
    EXPECT_EQ(cursor.page().bars, (Range{Beats(8), Beats(16)}));
}

TEST(DeskCursor, ShowsAPickupWithTheBarItLeadsToWhereNothingIsBeforeIt) {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(2)}, {Beats(4), Seconds(4)}});
    EXPECT_EQ(pageFor(study, Seconds(0)).bars, (Range{Beats(-4), Beats(4)}));
    EXPECT_EQ(pageFor(study, Seconds(2.5)).bars, (Range{Beats(0), Beats(8)}));
    // With a bar of the recording before it that one is shown, too.
    study.beatMap = BeatMap({{Beats(0), Seconds(4)}, {Beats(4), Seconds(6)}});
    EXPECT_EQ(pageFor(study, Seconds(2.5)).bars, (Range{Beats(-8), Beats(0)}));
    // Nothing is left of the bar before where the recording begins on a bar line.
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}});
    EXPECT_EQ(pageFor(study, Seconds(0)).bars, (Range{Beats(0), Beats(8)}));
}

TEST(DeskCursor, ShowsTheLoopWhereNoPhraseIs) {
    Study study = marked();
    study.practice.loop = Range{Seconds(8), Seconds(14)};
    DeskCursor cursor;
    cursor.follow(study, Seconds(9));
    EXPECT_EQ(cursor.page().bars, (Range{Beats(16), Beats(28)}));
}

TEST(DeskCursor, StaysWhileTheUserWorksInTheGrid) {
    DeskCursor cursor;
    cursor.follow(marked(), Seconds(1));
    cursor.hold();
    EXPECT_FALSE(cursor.follow(marked(), Seconds(7)));
    EXPECT_EQ(cursor.phrase(marked(), Seconds(7)), SpanId{1});
    EXPECT_TRUE(cursor.letGo());
    EXPECT_TRUE(cursor.follow(marked(), Seconds(7)));
}

TEST(DeskCursor, GoesWhereTheUserPoints) {
    DeskCursor cursor;
    cursor.follow(marked(), Seconds(1));
    cursor.hold();
    EXPECT_TRUE(cursor.goTo(marked(), Seconds(7)));
    EXPECT_FALSE(cursor.isHeld());
}

TEST(DeskCursor, LeavesAPhraseThatIsNoLonger) {
    DeskCursor cursor;
    Study study = marked();
    cursor.follow(study, Seconds(1));
    cursor.hold();
    study.spans.erase(study.spans.begin());
    EXPECT_TRUE(cursor.follow(study, Seconds(1)));
    EXPECT_FALSE(cursor.page().phrase);
}

TEST(DeskCursor, HasNoPageBeforeBarsAreMarked) {
    DeskCursor cursor;
    EXPECT_FALSE(cursor.follow(Study{}, Seconds(3)));
    EXPECT_EQ(cursor.page(), GridPage{});
}

} // namespace
} // namespace earwright::ui
