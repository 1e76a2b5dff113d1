#include "ui/desk/TapDesk.h"

#include "tests/core/study/SampleStudy.h"
#include "tests/ui/Picture.h"
#include "tests/ui/desk/TonesDesk.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

TEST(TapBook, KeepsWhenEachKeyWentDownAndCameUp) {
    TapBook book;
    book.press(1, Seconds(1), 60);
    book.press(1, Seconds(1.05), 60);
    book.press(2, Seconds(1.4), 62);
    book.release(1, Seconds(1.5));
    book.release(2, Seconds(1.6));
    book.release(3, Seconds(1.7));
    ASSERT_EQ(book.notes().size(), 2u) << "a key that is held cannot go down";
    EXPECT_EQ(book.notes()[0], (FreeNote{{Seconds(1), Seconds(1.5)}, 60}));
    EXPECT_EQ(book.notes()[1], (FreeNote{{Seconds(1.4), Seconds(1.6)}, 62}));
}

// A keyboard that is pulled out holds no key any more.
TEST(TapBook, LetsEveryKeyComeUpAtOnce) {
    TapBook book;
    book.press(-61, Seconds(1), 60);
    book.press(-65, Seconds(1.02), 64);
    book.releaseAll(Seconds(1.5));
    book.release(-61, Seconds(1.9));
    ASSERT_EQ(book.notes().size(), 2u);
    EXPECT_EQ(book.notes()[0], (FreeNote{{Seconds(1), Seconds(1.5)}, 60}));
    EXPECT_EQ(book.notes()[1], (FreeNote{{Seconds(1.02), Seconds(1.5)}, 64}));
}

TEST(TapBook, DoesNotTakeAKeyThatBouncesInAChordForAnotherNote) {
    TapBook book;
    book.press(-60, Seconds(1), 60);
    book.press(-64, Seconds(1.002), 64);
    book.release(-60, Seconds(1.004));
    book.press(-60, Seconds(1.006), 60);
    EXPECT_EQ(book.notes().size(), 2u);
}

TEST(TapBook, TakesTheLastPassOfALoopThatWasTapped) {
    TapBook book;
    book.press(1, Seconds(3), 60);
    book.release(1, Seconds(1));
    book.press(1, Seconds(1.2), 60);
    book.press(2, Seconds(1.1), 62);
    ASSERT_EQ(book.notes().size(), 2u);
    EXPECT_EQ(book.notes()[0].held.begin, Seconds(1.2))
        << "two keys pressed nearly at once may come in any order";
}

class TapDeskKeys : public TonesDesk {
protected:
    void tapAt(double seconds) {
        earTo(seconds);
        press(Qt::Key_F);
    }
    TapDesk& tapping() { return window->tapping(); }
};

// Bar 2 begins at 2.5 s, and a beat of these bars lasts half a second: two eighths and a quarter, with hands
// that are up to 12 ms off.
TEST_F(TapDeskKeys, OffersWaysToWriteWhatWasTappedAndWritesTheChosenOneAsOneStep) {
    markBarsAndPhrase();
    const std::size_t notesBefore = study().notes.size();
    press(Qt::Key_E, Qt::AltModifier);
    ASSERT_TRUE(tapping().isTapping());
    for (const double at : {2.506, 2.74, 3.01, 3.508})
        tapAt(at);
    press(Qt::Key_Return);
    ASSERT_GE(tapping().proposals().size(), 2u);
    EXPECT_EQ(study().notes.size(), notesBefore) << "nothing is written yet";
    press(Qt::Key_2);
    EXPECT_EQ(tapping().shown(), 1u);
    press(Qt::Key_1);
    press(Qt::Key_Return);
    ASSERT_EQ(study().notes.size(), 4u);
    EXPECT_EQ(study().notes[0].onset, Beats(4));
    EXPECT_EQ(study().notes[1].onset, Beats(9, 2));
    EXPECT_EQ(study().notes[2].onset, Beats(5));
    EXPECT_EQ(study().notes[3].onset, Beats(6));
    window->session().undo();
    EXPECT_EQ(study().notes.size(), notesBefore);
}

// A quarter-note triplet: bar 2 begins at 2.5 s, its first two beats last a second, and each note a third of
// it (common practice); hands that are up to 14 ms off.
TEST_F(TapDeskKeys, WriteThreeNotesTappedOverTwoBeatsAsATriplet) {
    markBarsAndPhrase();
    press(Qt::Key_E, Qt::AltModifier);
    for (const double at : {2.506, 2.82, 3.175, 3.508, 4.01})
        tapAt(at);
    press(Qt::Key_Return);
    press(Qt::Key_Return);
    ASSERT_EQ(study().notes.size(), 5u);
    const Beats places[] = {Beats(4), Beats(14, 3), Beats(16, 3), Beats(6), Beats(7)};
    for (std::size_t i = 0; i < 5; ++i)
        EXPECT_EQ(study().notes[i].onset, places[i]) << i;
    EXPECT_EQ(study().divisionOf(4), BeatDivision::Three);
    EXPECT_EQ(study().divisionOf(5), BeatDivision::Three);
}

// Bar 2 goes in three from 2.5 s on, so that bar 3 begins at 4 s: two eighths and a quarter, with the second
// eighth between the middle of its beat and the last of a triplet.
TEST_F(TapDeskKeys, NamesPlacesByTheMeterThatStandsThere) {
    markBarsAndPhrase();
    Study changed = meterFrom(meterFrom(study(), 2, Meter{3, 4}), 3, Meter{4, 4});
    window->session().apply("meter", changed);
    press(Qt::Key_E, Qt::AltModifier);
    for (const double at : {4.0, 4.29, 4.5})
        tapAt(at);
    press(Qt::Key_Return);
    ASSERT_GE(tapping().proposals().size(), 2u);
    const QString told = window->messages().sentence(QStringLiteral("tapping"));
    EXPECT_TRUE(told.contains("bar 3, beat 1 in ")) << told.toStdString();
}

TEST_F(TapDeskKeys, WriteNothingOnceTheBarsAreNotMarkedAnyMore) {
    markBarsAndPhrase();
    press(Qt::Key_E, Qt::AltModifier);
    tapAt(2.5);
    Study bare = study();
    bare.beatMap = BeatMap();
    window->session().apply("marks", bare);
    press(Qt::Key_Return);
    EXPECT_FALSE(tapping().isTapping());
    EXPECT_TRUE(tapping().proposals().empty());
    EXPECT_EQ(study(), bare);
}

TEST_F(TapDeskKeys, LeavesEverythingAsItWasWhenGivenUp) {
    markBarsAndPhrase();
    const Study before = study();
    press(Qt::Key_E, Qt::AltModifier);
    tapAt(2.5);
    press(Qt::Key_Return);
    press(Qt::Key_Escape);
    EXPECT_EQ(study(), before);
    press(Qt::Key_E, Qt::AltModifier);
    press(Qt::Key_Return);
    EXPECT_TRUE(tapping().proposals().empty()) << "nothing was tapped";
    EXPECT_EQ(study(), before);
}

// The second onset lies between the middle of its beat and the last of a triplet; the other beats are clear.
TEST_F(TapDeskKeys, GiveOneBeatAnotherReadingAndLeaveTheOthers) {
    markBarsAndPhrase();
    press(Qt::Key_E, Qt::AltModifier);
    for (const double at : {2.5, 2.79, 3.0, 3.25, 3.5})
        tapAt(at);
    press(Qt::Key_Return);
    ASSERT_GE(tapping().proposals().size(), 2u);
    ASSERT_EQ(tapping().beatInHand(), Beats(4)) << "the beat that is least clear";
    press(Qt::Key_Down);
    press(Qt::Key_Right);
    EXPECT_EQ(tapping().beatInHand(), Beats(5));
    press(Qt::Key_Left);
    const QString told = window->messages().sentence(QStringLiteral("tapping"));
    EXPECT_TRUE(told.contains("one beat changed")) << told.toStdString();
    EXPECT_TRUE(told.contains("2 of")) << told.toStdString();
    QTest::qWait(100); // until the row is laid out
    keepPicture(*window, "rhythm-beat-by-beat.png");
    const Beats simplest = tapping().proposals()[0].notes[1].onset;
    press(Qt::Key_Return);
    ASSERT_EQ(study().notes.size(), 5u);
    EXPECT_NE(study().notes[1].onset, simplest);
    EXPECT_TRUE(study().notes[1].onset == Beats(9, 2) || study().notes[1].onset == Beats(14, 3));
    EXPECT_EQ(study().notes[3].onset, Beats(11, 2));
}

TEST_F(TapDeskKeys, KeepTheWayThatWasChosenWhereOneBeatIsChanged) {
    markBarsAndPhrase();
    press(Qt::Key_E, Qt::AltModifier);
    for (const double at : {2.5, 2.79, 3.0, 3.5, 3.75, 4.0})
        tapAt(at);
    press(Qt::Key_Return);
    ASSERT_GE(tapping().proposals().size(), 2u);
    const RhythmProposal way = tapping().proposals()[1];
    ASSERT_NE(way.notes[1].onset, tapping().proposals()[0].notes[1].onset) << "they differ in the first beat";
    press(Qt::Key_2);
    while (tapping().beatInHand() < Beats(6))
        press(Qt::Key_Right);
    press(Qt::Key_Down);
    const QString told = window->messages().sentence(QStringLiteral("tapping"));
    EXPECT_TRUE(told.contains("way 2")) << told.toStdString();
    EXPECT_TRUE(told.contains("one beat changed")) << told.toStdString();
    press(Qt::Key_Return);
    ASSERT_EQ(study().notes.size(), 6u);
    EXPECT_EQ(study().notes[1].onset, way.notes[1].onset);
}

TEST_F(TapDeskKeys, KeepTheChoiceWhenOnlyTheSpeedChanges) {
    markBarsAndPhrase();
    press(Qt::Key_E, Qt::AltModifier);
    for (const double at : {2.506, 2.74, 3.01})
        tapAt(at);
    press(Qt::Key_Return);
    ASSERT_FALSE(tapping().proposals().empty());
    window->listening().playAt(0.5);
    QTest::qWait(50);
    ASSERT_FALSE(tapping().proposals().empty());
    press(Qt::Key_Return);
    EXPECT_EQ(study().notes.size(), 3u);
    EXPECT_EQ(study().practice.speed, 0.5);
}

} // namespace
} // namespace earwright::ui
