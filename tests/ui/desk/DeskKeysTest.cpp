// Keys that the desk has for itself, pressed where they mean something else: in lists, on buttons, during a
// drag over the strip and in the dialog of keys. All of them go through the desk's shortcuts, as a user's do.
#include "core/study/LooseEndEdits.h"
#include "core/study/TakeEdits.h"
#include "tests/ui/desk/TonesDesk.h"
#include "ui/commands/KeyCatcher.h"
#include "ui/commands/KeysDialog.h"
#include "ui/grid/LadderPanel.h"
#include "ui/grid/LooseEndList.h"
#include "ui/strip/FormStripView.h"
#include "ui/takes/TakeList.h"
#include "ui/takes/TakePanel.h"
#include "ui/transport/TransportBar.h"

#include <QAbstractButton>
#include <QListView>
#include <QPointer>
#include <QPushButton>
#include <QToolButton>
#include <QTreeWidget>

#include <gtest/gtest.h>
#include <set>

namespace earwright::ui {
namespace {

class DeskKeysTest : public TonesDesk {
protected:
    /// A loose end at each place, and the keyboard in their list, on the first.
    void goToLooseEnds(std::initializer_list<Seconds> places) {
        Study study = window->session().study();
        for (const Seconds place : places)
            study = addLooseEnd(study, place, "turn?").study;
        window->session().apply("loose ends", study);
        list()->setFocus(Qt::TabFocusReason);
        list()->setCurrentIndex(list()->model()->index(0, 0));
    }
    QListView* list() { return window->panel().looseEnds()->view(); }
    QWidget* focus() { return QApplication::focusWidget(); }
    bool isIn(const QWidget& part) { return focus() && (focus() == &part || part.isAncestorOf(focus())); }
};

TEST_F(DeskKeysTest, DeleteAmongLooseEndsTakesOutALooseEndAndNoNote) {
    markBarsAndPhrase();
    earTo(2.6);
    writeNote(Beats(4), 60);
    ASSERT_TRUE(window->panel().grid()->selectedNote());
    goToLooseEnds({Seconds(2.5), Seconds(3), Seconds(5)});
    press(Qt::Key_Delete);
    ASSERT_EQ(study().looseEnds.size(), 2u);
    EXPECT_EQ(study().looseEnds[0].time, Seconds(3));
    EXPECT_EQ(study().notes.size(), 1u);
    // The keyboard is on the next one now.
    press(Qt::Key_Backspace);
    ASSERT_EQ(study().looseEnds.size(), 1u);
    EXPECT_EQ(study().looseEnds[0].time, Seconds(5));
    EXPECT_EQ(study().notes.size(), 1u);
    EXPECT_EQ(study().beatMap.marks().size(), 2u);
}

TEST_F(DeskKeysTest, BackspaceAmongLooseEndsTakesOutNoBarMark) {
    markBarsAndPhrase();
    earTo(2.5);
    ASSERT_TRUE(window->commands().action(CommandId::RemoveMark)->isEnabled());
    goToLooseEnds({Seconds(5)});
    press(Qt::Key_Backspace);
    EXPECT_TRUE(study().looseEnds.empty());
    EXPECT_EQ(study().beatMap.marks().size(), 2u);
}

TEST_F(DeskKeysTest, EnterGoesToALooseEndAndMarksNoBar) {
    markBarsAndPhrase();
    earTo(1);
    goToLooseEnds({Seconds(3)});
    press(Qt::Key_Return);
    EXPECT_EQ(study().beatMap.marks().size(), 2u);
    EXPECT_TRUE(soon([&] { return std::abs(window->listening().place().value - 3) < 0.001; }));
}

TEST_F(DeskKeysTest, TheSpaceBarTicksALooseEndOffAndPlaysNothing) {
    markBarsAndPhrase();
    goToLooseEnds({Seconds(3)});
    press(Qt::Key_Space);
    EXPECT_TRUE(study().looseEnds[0].done);
    EXPECT_FALSE(window->listening().listen().playing);
    press(Qt::Key_Space);
    EXPECT_FALSE(study().looseEnds[0].done);
    // Other keys are the desk's there too.
    press(Qt::Key_K);
    EXPECT_TRUE(window->loopManner().isClimbing());
}

TEST_F(DeskKeysTest, DeleteAndEnterAmongTakesAreForTheTake) {
    markBarsAndPhrase();
    earTo(2.6);
    writeNote(Beats(4), 60);
    Take take;
    take.file = "take.wav";
    take.part = {Frames(0), Frames(1000)};
    window->session().apply("take", addTakes(study(), {take, take}));
    window->showTakes(true);
    auto* takes = window->takes().findChild<TakeList*>();
    ASSERT_TRUE(takes->isVisible());
    takes->setFocus(Qt::TabFocusReason);
    takes->setCurrentRow(0);
    const std::size_t marks = study().beatMap.marks().size();
    press(Qt::Key_Return);
    EXPECT_TRUE(study().takes[0].chosen);
    EXPECT_EQ(study().beatMap.marks().size(), marks);
    press(Qt::Key_Delete);
    EXPECT_EQ(study().takes.size(), 1u);
    EXPECT_EQ(study().notes.size(), 1u);
}

TEST_F(DeskKeysTest, EscGivesUpADragOverTheStripBeforeAnythingElse) {
    markBarsAndPhrase();
    const auto loop = study().practice.loop;
    window->sheet().setStretch(Range{Seconds(1), Seconds(2)});
    QWidget* strip = &window->strip();
    const int y = strip->height() / 2;
    QTest::mousePress(strip, Qt::LeftButton, {}, QPoint(700, y));
    const QPointF at(900, y);
    QMouseEvent move(QEvent::MouseMove, at, strip->mapToGlobal(at), Qt::NoButton, Qt::LeftButton,
                     Qt::NoModifier);
    QApplication::sendEvent(strip, &move);
    ASSERT_EQ(focus(), strip);
    press(Qt::Key_Escape);
    QTest::mouseRelease(strip, Qt::LeftButton, {}, at.toPoint());
    EXPECT_EQ(study().practice.loop, loop);
    EXPECT_TRUE(window->sheet().stretch()) << "what is selected goes with the next Esc";
    press(Qt::Key_Escape);
    EXPECT_FALSE(window->sheet().stretch());
}

TEST_F(DeskKeysTest, TabGoesFromButtonToButtonAndBackOnceBarsAreMarked) {
    markBarsAndPhrase();
    QWidget& transport = window->transport();
    for (int i = 0; i < 9 && !isIn(transport); ++i)
        press(Qt::Key_F6);
    ASSERT_TRUE(isIn(transport));
    QWidget* first = focus();
    std::set<QWidget*> reached{first};
    for (int i = 0; i < 8; ++i) {
        press(Qt::Key_Tab);
        ASSERT_TRUE(isIn(transport)) << i;
        reached.insert(focus());
    }
    EXPECT_EQ(reached.size(), 9u);
    for (int i = 0; i < 8; ++i)
        press(Qt::Key_Backtab, Qt::ShiftModifier);
    EXPECT_EQ(focus(), first);
}

TEST_F(DeskKeysTest, TabLeavesTheGridWhileItHasNoColumns) {
    open(recording());
    NoteGrid* grid = window->panel().grid();
    ASSERT_FALSE(grid->hasColumns());
    grid->setFocus(Qt::TabFocusReason);
    press(Qt::Key_Tab);
    EXPECT_NE(focus(), grid);
}

TEST_F(DeskKeysTest, TabIsForTheColumnsOnceThereAreSome) {
    markBarsAndPhrase();
    earTo(2.6);
    NoteGrid* grid = window->panel().grid();
    window->workInGrid();
    const Beats before = grid->cursor().place;
    press(Qt::Key_Tab);
    EXPECT_EQ(focus(), grid);
    EXPECT_GT(grid->cursor().place, before);
}

TEST_F(DeskKeysTest, TheNextPartIsEachThatIsThereInTurn) {
    markBarsAndPhrase();
    earTo(2.6);
    writeNote(Beats(4), 60);
    goToLooseEnds({Seconds(3)});
    const QWidget* parts[]{&window->strip(),
                           &window->sheet(),
                           window->panel().grid(),
                           window->panel().ladder(),
                           window->panel().looseEnds(),
                           &window->transport()};
    window->strip().setFocus();
    for (std::size_t i = 1; i <= std::size(parts); ++i) {
        press(Qt::Key_F6);
        EXPECT_TRUE(isIn(*parts[i % std::size(parts)])) << i;
    }
}

TEST_F(DeskKeysTest, TheNextPartIsAlsoAMessageWithItsButtons) {
    open(recording());
    window->sheet().setFocus();
    press(Qt::Key_L);
    press(Qt::Key_F6);
    ASSERT_TRUE(isIn(window->messages()));
    press(Qt::Key_F6);
    EXPECT_FALSE(isIn(window->messages()));
}

TEST_F(DeskKeysTest, TheOverviewIsStoppedFromTheKeyboard) {
    markBarsAndPhrase();
    FormStripView& strip = window->strip();
    strip.setDrawn(0.4);
    QSignalSpy cancelled(&strip, &FormStripView::drawingCancelled);
    strip.setFocus(Qt::TabFocusReason);
    press(Qt::Key_Tab);
    ASSERT_EQ(focus(), strip.findChild<QToolButton*>());
    press(Qt::Key_Space);
    EXPECT_EQ(cancelled.size(), 1);
}

TEST_F(DeskKeysTest, KeysPutFewerOrMoreBarsOnALine) {
    markBarsAndPhrase();
    const auto bars = [&] { return window->sheet().places().lines().front().bars->count; };
    const auto before = bars();
    press(Qt::Key_PageUp, Qt::ControlModifier);
    EXPECT_LT(bars(), before);
    press(Qt::Key_PageDown, Qt::ControlModifier);
    EXPECT_EQ(bars(), before);
}

TEST_F(DeskKeysTest, SentencesNameTheKeysThatCommandsHaveNow) {
    window->keys().assign(CommandId::TapBar, QKeySequence("Ctrl+J"));
    open(recording());
    EXPECT_TRUE(window->messages().sentence("advice").contains("press Ctrl+J on each bar line"));
    window->keys().assign(CommandId::CheckPhrase, QKeySequence());
    EXPECT_TRUE(window->panel().ladder()->sentence().contains("in the menu Check"));
}

TEST_F(DeskKeysTest, SaysWhyAShiftedKeyDoesNothing) {
    open(recording());
    window->sheet().setFocus();
    press(Qt::Key_Less, Qt::ShiftModifier);
    const QString why = window->commands().whyNot(QKeySequence("Shift+,"));
    ASSERT_FALSE(why.isEmpty());
    EXPECT_EQ(window->messages().sentence("notice"), why);
}

class KeysAtTheDesk : public DeskKeysTest {
protected:
    void SetUp() override {
        DeskKeysTest::SetUp();
        press(Qt::Key_F1);
        dialog = window->findChild<KeysDialog*>();
        ASSERT_TRUE(dialog);
        dialog->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(dialog));
        list = dialog->findChild<QTreeWidget*>();
        list->setFocus();
        dialog->choose(CommandId::LoopPhrase);
        ASSERT_TRUE(soon([&] { return focus() == list; }));
    }
    const KeyBindings& keys() { return window->keys(); }

    QPointer<KeysDialog> dialog;
    QTreeWidget* list = nullptr;
};

TEST_F(KeysAtTheDesk, EnterOnACommandAsksForItsNewKeyAndTakesNoneAway) {
    press(Qt::Key_Return);
    EXPECT_EQ(keys().owner(QKeySequence("P")), CommandId::LoopPhrase);
    EXPECT_FALSE(keys().isChanged(CommandId::LoopPhrase));
    ASSERT_EQ(focus(), dialog->findChild<KeyCatcher*>());
    press(Qt::Key_K, Qt::AltModifier);
    EXPECT_EQ(keys().owner(QKeySequence("Alt+K")), CommandId::LoopPhrase);
    // The next key is for the dialog again.
    EXPECT_EQ(focus(), list);
    press(Qt::Key_Tab);
    EXPECT_EQ(keys().owner(QKeySequence("Tab")), CommandId::NextColumn);
    press(Qt::Key_Escape);
    EXPECT_EQ(keys().owner(QKeySequence("Esc")), CommandId::LetGo);
    EXPECT_FALSE(dialog && dialog->isVisible());
}

TEST_F(KeysAtTheDesk, TabGoesThroughTheDialogAndGivesNoCommandAKey) {
    std::set<QWidget*> reached{focus()};
    for (int i = 0; i < 6; ++i) {
        press(Qt::Key_Tab);
        ASSERT_TRUE(isIn(*dialog));
        reached.insert(focus());
    }
    EXPECT_GE(reached.size(), 4u) << "the list and the buttons";
    for (const Command& entry : commandTable())
        EXPECT_FALSE(keys().isChanged(entry.id)) << entry.word;
}

} // namespace
} // namespace earwright::ui
