#include "ui/sheet/ChorusSheetView.h"

#include "tests/ui/Soon.h"
#include "ui/sheet/ClimbMenu.h"
#include "ui/sheet/LoopPill.h"
#include "ui/sheet/PillMenu.h"
#include "ui/sheet/SheetPainter.h"
#include "ui/theme/InlineEditor.h"
#include "ui/theme/Theme.h"

#include <QApplication>
#include <QImage>
#include <QPushButton>
#include <QScrollBar>
#include <QSignalSpy>
#include <QTest>
#include <QVariantAnimation>
#include <QWheelEvent>

#include <cmath>
#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

class ChorusSheetViewTest : public testing::Test {
protected:
    void SetUp() override {
        applyTheme(*qApp, Appearance::Light);
        sheet.resize(900, 640);
        sheet.show();
        study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}});
        sheet.setRecording(Seconds(120), [](const Range<Seconds>&) -> std::optional<float> { return 0.9F; });
        give();
    }

    void give() { sheet.setStudy(std::make_shared<const Study>(study)); }
    QPoint at(double seconds) const {
        const auto line = sheet.places().lineOf(Seconds(seconds));
        return QPoint(qRound(sheet.places().x(line, Seconds(seconds))),
                      qRound(sheet.places().box(line).center().y()) - sheet.verticalScrollBar()->value());
    }
    int count(const QRect& area, Role role) {
        const QImage image = sheet.viewport()->grab().toImage();
        int found = 0;
        for (int y = area.top(); y <= area.bottom(); ++y)
            for (int x = area.left(); x <= area.right(); ++x)
                found +=
                    image.rect().contains(x, y) && image.pixelColor(x, y).rgb() == color(role).rgb() ? 1 : 0;
        return found;
    }
    QRect line(std::size_t index) const { return sheet.places().box(index).toAlignedRect(); }

    Study study;
    ChorusSheetView sheet;
};

TEST_F(ChorusSheetViewTest, DrawsTheRecordInCopperAndNotesInTeal) {
    EXPECT_GT(count(line(0), Role::Recording), 500);
    EXPECT_EQ(count(line(0), Role::Written), 0);
    study.notes = {{NoteId{1}, Beats(2), Beats(1), Pitch{67, {}}, 0.6, {}}};
    give();
    EXPECT_GT(count(line(0), Role::Written), 25);
    EXPECT_EQ(count(line(1), Role::Written), 0);
}

TEST_F(ChorusSheetViewTest, ShowsVerdictsOnlyOnceTheyAreGiven) {
    study.notes = {{NoteId{1}, Beats(2), Beats(1), Pitch{67, {}}, 0.6, {}}};
    give();
    const int open = count(line(0), Role::Written);
    sheet.setVerdicts({{NoteId{1}, Verdict::Supported}});
    const int full = count(line(0), Role::Written);
    EXPECT_LT(open, full) << "not judged is not supported";
    sheet.setVerdicts({{NoteId{1}, Verdict::Unclear}});
    const int dotted = count(line(0), Role::Written);
    EXPECT_LT(dotted, full);
    EXPECT_NE(dotted, open);
    sheet.setVerdicts({});
    EXPECT_EQ(count(line(0), Role::Written), open);
}

TEST_F(ChorusSheetViewTest, OutlinesNotesThatAreChosenInTheGrid) {
    study.notes = {{NoteId{1}, Beats(1), Beats(1), Pitch{67, {}}, 0.6, {}}};
    give();
    const auto ink = [&] { return count(line(0), Role::Ink); };
    const int before = ink();
    sheet.setSelected({NoteId{1}});
    EXPECT_GT(ink(), before);
    sheet.setSelected({});
    EXPECT_EQ(ink(), before);
}

TEST_F(ChorusSheetViewTest, TintsTheLoopAndPutsItsPillOnIt) {
    study.practice.loop = Range{Seconds(2), Seconds(4)};
    sheet.setSpeedSteps({35, 50, 65, 80, 100});
    give();
    EXPECT_GT(count(line(0), Role::LoopWash), 5000);
    EXPECT_GT(count(QRect(200, 0, 300, line(0).top()), Role::Loop), 1000);
}

TEST_F(ChorusSheetViewTest, OpensTheClimbOnThePill) {
    study.practice.loop = Range{Seconds(2), Seconds(4)};
    sheet.setSpeedSteps({35, 50, 65, 80, 100});
    give();
    sheet.setClimb({2, 8, 120}, true);
    SheetModel model;
    model.study = std::make_shared<const Study>(study);
    model.speedSteps = {35, 50, 65, 80, 100};
    model.climb = {2, 8, 120};
    model.climbing = true;
    const QPoint place =
        LoopPill::on(model, sheet.places())->part(SheetPart::PillClimb)->place.center().toPoint();
    QTest::mouseClick(sheet.viewport(), Qt::LeftButton, {}, place);
    auto* menu = sheet.findChild<ClimbMenu*>();
    ASSERT_TRUE(menu);
    QSignalSpy chosen(&sheet, &ChorusSheetView::climbChosen);
    for (QAction* action : menu->actions())
        if (action->text() == "5 %") action->trigger();
    ASSERT_EQ(chosen.size(), 1);
    EXPECT_EQ(chosen[0][0].value<std::optional<Climb>>(), (Climb{5, 8, 120}));
    menu->close();
}

TEST_F(ChorusSheetViewTest, OffersGapsOnThePill) {
    study.practice.loop = Range{Seconds(2), Seconds(4)};
    give();
    SheetModel model;
    model.study = std::make_shared<const Study>(study);
    const auto pill = LoopPill::on(model, sheet.places());
    QTest::mouseClick(sheet.viewport(), Qt::LeftButton, {},
                      pill->part(SheetPart::PillGap)->place.center().toPoint());
    auto* menu = sheet.findChild<PillMenu*>();
    ASSERT_TRUE(menu);
    QSignalSpy chosen(&sheet, &ChorusSheetView::gapChosen);
    for (QAction* action : menu->actions())
        if (action->text() == "2 beats") action->trigger();
    ASSERT_EQ(chosen.size(), 1);
    EXPECT_EQ(chosen[0][0].toInt(), 2);
    menu->close();
}

TEST_F(ChorusSheetViewTest, ShowsTheHandleOfAMarkWhileTheHandIsOnItsLine) {
    give();
    const QRect foot = SheetPainter::handleArea(sheet.places(), Seconds(2)).toAlignedRect();
    const int before = count(foot, Role::Ink);
    QTest::mouseMove(sheet.viewport(), at(2));
    EXPECT_GT(count(foot, Role::Ink), before + 100);
    QTest::mouseMove(sheet.viewport(), at(3));
    EXPECT_EQ(count(foot, Role::Ink), before);
}

TEST_F(ChorusSheetViewTest, MarksTheInstantThatIsHeld) {
    give();
    const int before = count(line(0), Role::Recording);
    sheet.setHeld(Seconds(3));
    EXPECT_GT(count(line(0), Role::Recording), before + 40);
    sheet.setHeld(std::nullopt);
    EXPECT_EQ(count(line(0), Role::Recording), before);
}

TEST_F(ChorusSheetViewTest, TellsThoseWhoListenWhereTheEarIsAndWhatIsChosen) {
    give();
    sheet.setHeard(Seconds(2.6));
    EXPECT_EQ(sheet.accessibleDescription().toStdString(), "The ear is at bar 2, beat 2.");
    sheet.setStretch(Range{Seconds(2), Seconds(4)});
    EXPECT_TRUE(sheet.accessibleDescription().contains("Chosen: bar 2, beat 1 to bar 3, beat 1."));
}

TEST_F(ChorusSheetViewTest, AsksToHearThePlaceClicked) {
    QSignalSpy wishes(&sheet, &ChorusSheetView::wished);
    QTest::mouseClick(sheet.viewport(), Qt::LeftButton, {}, at(3));
    ASSERT_EQ(wishes.size(), 1);
    const auto wish = wishes[0][0].value<SheetWish>();
    ASSERT_TRUE(std::holds_alternative<HearFrom>(wish));
    EXPECT_NEAR(std::get<HearFrom>(wish).place.value, 3, 0.01);
}

TEST_F(ChorusSheetViewTest, ScrollsWhenTheEarLeavesTheSightAndNotAfterAHandScrolledAway) {
    sheet.setHeard(Seconds(1));
    sheet.setHeard(Seconds(100));
    ASSERT_TRUE(soon([&] { return sheet.verticalScrollBar()->value() > 0; }));
    const auto* glide = sheet.findChild<QVariantAnimation*>();
    ASSERT_TRUE(soon([&] { return glide->state() == QAbstractAnimation::Stopped; }));
    ASSERT_TRUE(sheet.viewport()->rect().contains(at(100)));
    sheet.verticalScrollBar()->setValue(0);
    sheet.setHeard(Seconds(110));
    EXPECT_EQ(glide->state(), QAbstractAnimation::Stopped);
    EXPECT_EQ(sheet.verticalScrollBar()->value(), 0);
}

TEST_F(ChorusSheetViewTest, ScrollsClearOfWhatLiesOverItsFoot) {
    QScrollBar* const bar = sheet.verticalScrollBar();
    const int before = bar->maximum();
    sheet.setCoveredFoot(60);
    EXPECT_EQ(bar->maximum(), before + 60);
    bar->setValue(bar->maximum());
    EXPECT_LE(at(119).y(), sheet.viewport()->height() - 60) << "the last line too";
    sheet.setCoveredFoot(0);
    EXPECT_EQ(bar->maximum(), before);
    EXPECT_EQ(bar->value(), before);
}

TEST_F(ChorusSheetViewTest, BringsTheLineThatIsHeardOutFromUnderWhatLiesOverIt) {
    const SheetGeometry& places = sheet.places();
    std::size_t last = 0;
    while (places.box(last + 1).bottom() < sheet.viewport()->height())
        ++last;
    const Seconds heard = places.lines()[last].time.begin + Seconds(0.1);
    sheet.setHeard(heard);
    ASSERT_EQ(sheet.verticalScrollBar()->value(), 0);
    const int covered = sheet.viewport()->height() - static_cast<int>(places.box(last).center().y());
    sheet.setCoveredFoot(covered);
    EXPECT_TRUE(soon([&] {
        return sheet.verticalScrollBar()->value() > 0 &&
               at(heard.value).y() < sheet.viewport()->height() - covered;
    }));
    EXPECT_LE(sheet.timeInSight().begin, heard);
}

TEST_F(ChorusSheetViewTest, HasInSightOnlyLinesOfWhichThereIsSomethingToSee) {
    const SheetGeometry& places = sheet.places();
    ASSERT_LT(places.box(2).top(), sheet.viewport()->height());
    EXPECT_GE(sheet.timeInSight().end, places.lines()[2].time.end);
    // Until of the third line nothing but the room for its chords shows.
    int height = 640;
    while (places.box(2).top() < sheet.viewport()->height())
        sheet.resize(900, --height);
    ASSERT_GT(sheet.viewport()->height(), places.lineBand(2).top());
    EXPECT_EQ(sheet.timeInSight().end, places.lines()[1].time.end);
    EXPECT_EQ(sheet.timeInSight().begin, Seconds(0));
    // And of the first one nothing but its brackets.
    const int foot = static_cast<int>(std::ceil(places.box(0).bottom()));
    sheet.verticalScrollBar()->setValue(foot - 1);
    EXPECT_EQ(sheet.timeInSight().begin, Seconds(0));
    sheet.verticalScrollBar()->setValue(foot);
    ASSERT_LT(foot, places.lineBand(0).bottom());
    EXPECT_EQ(sheet.timeInSight().begin, places.lines()[1].time.begin);
}

TEST_F(ChorusSheetViewTest, HasAScrollBarOnlyWhereThereIsMoreThanFits) {
    const auto isDrawn = [&] {
        const QImage image = sheet.verticalScrollBar()->grab().toImage();
        for (int y = 0; y < image.height(); ++y)
            if (image.pixelColor(image.width() / 2, y).rgb() == color(Role::Rule).rgb()) return true;
        return false;
    };
    EXPECT_TRUE(isDrawn()) << "two minutes";
    const int width = sheet.viewport()->width();
    sheet.setRecording(Seconds(6), {});
    EXPECT_FALSE(isDrawn()) << "one line of bars";
    sheet.setRecording(Seconds(0), {});
    EXPECT_FALSE(isDrawn()) << "no recording";
    EXPECT_EQ(sheet.viewport()->width(), width) << "bars stay where they are";
    sheet.setRecording(Seconds(120), {});
    EXPECT_TRUE(isDrawn());
}

TEST_F(ChorusSheetViewTest, HasAHairlineWhileTheKeyboardIsInIt) {
    QPushButton elsewhere(&sheet);
    elsewhere.show();
    sheet.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&sheet));
    const QRect leftEdge(0, 100, 1, 200);
    elsewhere.setFocus();
    EXPECT_EQ(count(leftEdge, Role::Ink), 0);
    sheet.setFocus();
    EXPECT_GT(count(leftEdge, Role::Ink), 190);
}

TEST_F(ChorusSheetViewTest, PutsHalfOrTwiceAsManyBarsOnALine) {
    const auto bars = [&] { return sheet.places().lines().front().bars->count; };
    ASSERT_EQ(bars(), 4);
    sheet.stepBarsPerLine(1);
    EXPECT_EQ(bars(), 8);
    for (int i = 0; i < 5; ++i)
        sheet.stepBarsPerLine(1);
    EXPECT_EQ(bars(), 16);
    for (int i = 0; i < 9; ++i)
        sheet.stepBarsPerLine(-1);
    EXPECT_EQ(bars(), 1);
}

TEST_F(ChorusSheetViewTest, TakesChordsTypedOverABar) {
    QSignalSpy wishes(&sheet, &ChorusSheetView::wished);
    sheet.typeChords(2);
    auto* editor = sheet.findChild<InlineEditor*>();
    ASSERT_TRUE(editor->isVisible());
    QTest::keyClicks(editor, "Fm7 Bb7");
    QTest::keyClick(editor, Qt::Key_Return);
    ASSERT_EQ(wishes.size(), 1);
    const auto wish = std::get<TypeChords>(wishes[0][0].value<SheetWish>());
    EXPECT_EQ(wish.bar, 2);
    EXPECT_EQ(wish.text, "Fm7 Bb7");
    EXPECT_FALSE(editor->isVisible());
}

TEST_F(ChorusSheetViewTest, OpensAFieldWhereItsBarComesIntoSight) {
    sheet.typeChords(50);
    const auto* editor = sheet.findChild<InlineEditor*>();
    EXPECT_TRUE(soon([&] {
        return sheet.viewport()->rect().contains(editor->geometry()) &&
               sheet.verticalScrollBar()->value() > 0;
    }));
    const int before = editor->y();
    sheet.verticalScrollBar()->setValue(sheet.verticalScrollBar()->value() - 30);
    EXPECT_EQ(editor->y(), before + 30) << "and stays with it";
}

TEST_F(ChorusSheetViewTest, ChoosesAStretchBeyondWhatIsInSight) {
    QTest::mousePress(sheet.viewport(), Qt::LeftButton, {}, at(3));
    const auto moveTo = [&](QPoint place) {
        QMouseEvent move(QEvent::MouseMove, place, sheet.viewport()->mapToGlobal(place), Qt::NoButton,
                         Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(sheet.viewport(), &move);
    };
    const QPoint under(at(3).x(), sheet.viewport()->height() + 5);
    for (int i = 0; i < 12; ++i)
        moveTo(under);
    EXPECT_GT(sheet.verticalScrollBar()->value(), 0);
    ASSERT_TRUE(sheet.stretch());
    EXPECT_NEAR(sheet.stretch()->begin.value, 3, 0.1);
    EXPECT_GT(sheet.stretch()->length(), Seconds(20));
    QTest::mouseRelease(sheet.viewport(), Qt::LeftButton, {}, under);
}

TEST_F(ChorusSheetViewTest, LetsADragGoWhoseReleaseItDidNotSee) {
    QTest::mousePress(sheet.viewport(), Qt::LeftButton, {}, at(3));
    QMouseEvent move(QEvent::MouseMove, at(9), sheet.viewport()->mapToGlobal(at(9)), Qt::NoButton,
                     Qt::NoButton, Qt::NoModifier);
    QApplication::sendEvent(sheet.viewport(), &move);
    EXPECT_FALSE(sheet.stretch());
}

TEST_F(ChorusSheetViewTest, TakesBarsOnALineFromAWholeNotchOfTheWheel) {
    const auto bars = [&] { return sheet.places().lines().front().bars->count; };
    const auto turn = [&](int eighths) {
        const QPointF place = sheet.viewport()->rect().center();
        QWheelEvent wheel(place, sheet.viewport()->mapToGlobal(place), {}, {0, eighths}, Qt::NoButton,
                          Qt::ControlModifier, Qt::NoScrollPhase, false);
        QApplication::sendEvent(sheet.viewport(), &wheel);
    };
    const auto before = bars();
    turn(0);
    turn(-40);
    turn(-40);
    EXPECT_EQ(bars(), before);
    turn(-40);
    EXPECT_EQ(bars(), 2 * before);
}

TEST_F(ChorusSheetViewTest, DropsWhatWasTypedOnEscape) {
    QSignalSpy wishes(&sheet, &ChorusSheetView::wished);
    sheet.typeName(SpanKind::Phrase, {Seconds(1), Seconds(3)});
    auto* editor = sheet.findChild<InlineEditor*>();
    QTest::keyClicks(editor, "a");
    QTest::keyClick(editor, Qt::Key_Escape);
    EXPECT_TRUE(wishes.isEmpty());
    EXPECT_FALSE(editor->isVisible());
}

TEST_F(ChorusSheetViewTest, KeepsBarsOfTwoChorusesInTheSameColumn) {
    study.spans = {{SpanId{1}, SpanKind::Chorus, "one", {Seconds(0), Seconds(24)}},
                   {SpanId{2}, SpanKind::Chorus, "two", {Seconds(24), Seconds(48)}}};
    give();
    const auto& places = sheet.places();
    // Bar 9 of either chorus: 16 s and 40 s.
    EXPECT_DOUBLE_EQ(places.x(places.lineOf(Seconds(16.5)), Seconds(16.5)),
                     places.x(places.lineOf(Seconds(40.5)), Seconds(40.5)));
}

} // namespace
} // namespace earwright::ui
