// Ways of listening at the desk, by their keys and by hand.
#include "core/study/MarkEdits.h"
#include "tests/ui/Soon.h"
#include "tests/ui/desk/GeneratedRecording.h"
#include "tests/ui/desk/SilentDesk.h"
#include "ui/sheet/ChorusSheetView.h"
#include "ui/theme/QuietButton.h"
#include "ui/transport/BandRow.h"
#include "ui/transport/ClickRow.h"
#include "ui/transport/PlaceDisplay.h"
#include "ui/transport/SignedStepper.h"
#include "ui/transport/TransportBar.h"
#include "ui/transport/TuningLine.h"

#include <QTest>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

/// A desk on twelve seconds of tones, with bars of two seconds from the start, and an engine without a
/// device.
class ListeningWays : public SilentDesk {
protected:
    void SetUp() override {
        openWindow();
        writeRecording(in("tones.wav"), 12, {{2.0, 0.48, 60}, {3.0, 0.48, 64}});
        open(in("tones.wav"));
        Study marked = insertMark(window->session().study(), Seconds(0));
        marked.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}});
        window->session().apply("mark", marked);
        window->listening().loopOver(Range{Seconds(2), Seconds(4)});
        ASSERT_TRUE(soon([&] { return window->commands().action(CommandId::GapLonger)->isEnabled(); }));
    }
    const Practice& practice() { return window->session().study().practice; }
    const Heard& heard() { return window->listening().heard(); }
};

TEST_F(ListeningWays, LeaveAGapAfterEachPassAndSaySo) {
    for (int i = 0; i < 6; ++i)
        press(Qt::Key_O);
    EXPECT_EQ(window->loopManner().gapBeats(), 4);
    press(Qt::Key_O, Qt::ShiftModifier);
    EXPECT_EQ(window->loopManner().gapBeats(), 3);
    window->goTo(Seconds(3.7));
    press(Qt::Key_Space);
    ASSERT_TRUE(soon([&] { return heard().stage == Stage::Gap; }));
    const auto* display = window->transport().placeDisplay();
    EXPECT_TRUE(soon([&] { return display->largeText().endsWith(": your turn"); }));
    EXPECT_GE(heard().beatsLeft, 1);
    EXPECT_LE(heard().beatsLeft, 3);
}

TEST_F(ListeningWays, CountInBeforeTheSoundBegins) {
    press(Qt::Key_W, Qt::ShiftModifier);
    EXPECT_EQ(window->beatDesk().countIn(), 4);
    EXPECT_EQ(window->transport().clickRow()->countIn()->value(), 4);
    press(Qt::Key_Space);
    ASSERT_TRUE(soon([&] { return heard().stage == Stage::CountIn; }));
    const auto* display = window->transport().placeDisplay();
    EXPECT_TRUE(soon([&] { return display->largeText().startsWith("count-in "); }));
    press(Qt::Key_W, Qt::ShiftModifier);
    EXPECT_EQ(window->beatDesk().countIn(), 8);
    press(Qt::Key_W, Qt::ShiftModifier);
    EXPECT_EQ(window->beatDesk().countIn(), 0);
}

TEST_F(ListeningWays, ClickOnTheBeatByKeyAndByHand) {
    press(Qt::Key_W);
    EXPECT_TRUE(window->beatDesk().isClicking());
    EXPECT_TRUE(window->transport().clickRow()->clicksButton()->isChecked());
    window->transport().clickRow()->clicksButton()->click();
    EXPECT_FALSE(window->beatDesk().isClicking());
    window->transport().clickRow()->level()->lowerButton()->click();
    EXPECT_EQ(window->beatDesk().clickLevel(), -1);
}

TEST_F(ListeningWays, GiveYoursASpeedOfItsOwnInTrade) {
    window->listening().playAt(0.5);
    press(Qt::Key_Equal, Qt::ControlModifier);
    ASSERT_TRUE(window->loopManner().yoursSpeed());
    EXPECT_GT(*window->loopManner().yoursSpeed(), 0.5);
    EXPECT_EQ(practice().speed, 0.5);
    press(Qt::Key_0, Qt::ControlModifier);
    EXPECT_FALSE(window->loopManner().yoursSpeed());
}

TEST_F(ListeningWays, GoThroughTheBandsAndMoveTheirEdges) {
    BandRow* row = window->transport().bandRow();
    press(Qt::Key_B);
    EXPECT_TRUE(row->button(BandUse::Only)->isChecked());
    const BandEdges before = window->bandDesk().edges();
    press(Qt::Key_Period, Qt::ControlModifier);
    press(Qt::Key_Comma, Qt::ControlModifier | Qt::ShiftModifier);
    EXPECT_EQ(window->bandDesk().edges(), (BandEdges{before.low + 1, before.high - 1}));
    EXPECT_EQ(row->low()->value(), before.low + 1);
    press(Qt::Key_B);
    EXPECT_TRUE(row->button(BandUse::Without)->isChecked());
    press(Qt::Key_B);
    EXPECT_TRUE(row->button(BandUse::Off)->isChecked());
}

TEST_F(ListeningWays, HoldAnInstantMoveItAndLetItGo) {
    window->goTo(Seconds(3.2));
    press(Qt::Key_D);
    ASSERT_TRUE(soon([&] { return heard().holding; }));
    press(Qt::Key_Right);
    EXPECT_TRUE(window->listening().isHolding());
    ASSERT_TRUE(soon([&] { return std::abs(window->listening().ear().value - 3.5) < 0.1; }));
    EXPECT_TRUE(heard().holding);
    press(Qt::Key_Escape);
    ASSERT_TRUE(soon([&] { return !window->listening().listen().holding; }));
}

TEST_F(ListeningWays, TurnYoursUpAndDownAgainstTheRecord) {
    press(Qt::Key_Y);
    press(Qt::Key_Y);
    press(Qt::Key_Y, Qt::ShiftModifier);
    EXPECT_EQ(window->listening().balance(), 1);
    EXPECT_EQ(window->transport().balance()->text().toStdString(), "+1");
    window->transport().balance()->valueButton()->click();
    EXPECT_EQ(window->listening().balance(), 0);
    for (int i = 0; i < 40; ++i)
        press(Qt::Key_Y);
    EXPECT_EQ(window->listening().balance(), 12);
}

TEST_F(ListeningWays, PlayAFlatRecordAtTheReferenceAndBack) {
    window->tuningDesk().setRecord(-12.0);
    ASSERT_TRUE(soon([&] { return window->commands().action(CommandId::PlayInTune)->isEnabled(); }));
    press(Qt::Key_I);
    EXPECT_EQ(practice().cents, 12);
    EXPECT_TRUE(window->transport().tuningLine()->isInTune());
    // Another reference takes the record along.
    window->transport().tuningLine()->higherButton()->click();
    EXPECT_EQ(practice().cents, 16); // 1200·log2(441/440) = 3.93
    press(Qt::Key_I);
    EXPECT_EQ(practice().cents, 0);
}

TEST_F(ListeningWays, KeepTheReferenceFromSessionToSession) {
    window->tuningDesk().choose({442});
    window->session().giveUp();
    openWindow();
    EXPECT_EQ(window->tuningDesk().reference(), ReferenceA{442});
}

TEST_F(ListeningWays, CarryATuningBeyondASemitoneOverAndBack) {
    window->listening().transpose(2, 0);
    window->tuningDesk().choose({415});
    window->tuningDesk().setRecord(30.0);
    window->tuningDesk().playInTune(true);
    EXPECT_EQ(practice().semitones, 1);
    EXPECT_EQ(practice().cents, -31);
    window->tuningDesk().playInTune(false);
    EXPECT_EQ(practice().semitones, 2);
    EXPECT_EQ(practice().cents, 0);
}

} // namespace
} // namespace earwright::ui
