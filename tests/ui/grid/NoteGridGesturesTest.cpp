// What the pointer does in the note grid.
#include "tests/ui/grid/EditedGrid.h"
#include "ui/grid/NoteGrid.h"

#include <QMenu>

namespace earwright::ui {
namespace {

using NoteGridGestures = EditedGrid;

TEST_F(NoteGridGestures, WritesAndSoundsANoteByClick) {
    QTest::mouseClick(grid.viewport(), Qt::LeftButton, {}, cell(Beats(5), 67));
    EXPECT_EQ(edits, 1);
    EXPECT_EQ(onlyNote().onset, Beats(5));
    EXPECT_EQ(onlyNote().pitch.midi, 67);
    EXPECT_EQ(heard, std::vector<int>{67});
    EXPECT_EQ(grid.selectedNote(), onlyNote().id);
}

TEST_F(NoteGridGestures, MovesANoteByDragAsOneEditAndSoundsEachNewPitch) {
    showWithNote(Beats(5), Beats(1, 2), 67);
    drag(head(1), head(1) + cell(Beats(7), 65) - cell(Beats(5), 67));
    EXPECT_EQ(edits, 1);
    EXPECT_EQ(lastEdit, "move note");
    EXPECT_EQ(onlyNote().onset, Beats(7));
    EXPECT_EQ(onlyNote().pitch.midi, 65);
    EXPECT_EQ(heard, (std::vector<int>{66, 65}));
    EXPECT_EQ(grid.cursor(), (GridCursor{Beats(7), 65}));
}

TEST_F(NoteGridGestures, LengthensANoteByDraggingItsTail) {
    showWithNote(Beats(5), Beats(1), 67);
    const QPoint end = grid.geometryOfCells().tailEnd(onlyNote()).toPoint();
    drag(end, cell(Beats(8), 67)); // over the bar line
    EXPECT_EQ(edits, 1);
    EXPECT_EQ(onlyNote().end(), Beats(17, 2));
}

TEST_F(NoteGridGestures, TakesANoteOutByRightClickAndByDelete) {
    showWithNote(Beats(5), Beats(1), 67);
    QTest::mouseClick(grid.viewport(), Qt::RightButton, {}, head(1));
    EXPECT_TRUE(current->notes.empty());
    showWithNote(Beats(5), Beats(1), 67);
    QTest::keyClick(&grid, Qt::Key_Delete);
    EXPECT_TRUE(current->notes.empty());
    EXPECT_EQ(edits, 2);
}

TEST_F(NoteGridGestures, OffersDivisionsOnTheBeatRuler) {
    QTest::mouseClick(grid.viewport(), Qt::LeftButton, {},
                      grid.geometryOfCells().beatOnRuler(Beats(7)).center().toPoint());
    const auto menus = grid.findChildren<QMenu*>();
    ASSERT_EQ(menus.size(), 1);
    ASSERT_EQ(menus[0]->actions().size(), 12);
    EXPECT_TRUE(menus[0]->actions()[1]->isChecked());
    menus[0]->actions()[5]->trigger();
    EXPECT_EQ(current->divisionOf(7), BeatDivision::Six);
}

TEST_F(NoteGridGestures, SendsTheEarToAClickOverTheCells) {
    std::vector<Seconds> places;
    QObject::connect(&grid, &NoteGrid::placeChosen, [&](Seconds time) { places.push_back(time); });
    const QPoint above(qRound(grid.geometryOfCells().x(8.0)), 8);
    QTest::mouseClick(grid.viewport(), Qt::LeftButton, {}, above);
    ASSERT_EQ(places.size(), 1u);
    EXPECT_NEAR(places[0].value, 5, 0.02);
}

TEST_F(NoteGridGestures, ForgetsAGestureThatIsCalledOff) {
    showWithNote(Beats(5), Beats(1), 67);
    QTest::mousePress(grid.viewport(), Qt::LeftButton, {}, head(1));
    const QPointF at = head(1) + QPoint(80, 30);
    QMouseEvent move(QEvent::MouseMove, at, grid.viewport()->mapToGlobal(at), Qt::NoButton, Qt::LeftButton,
                     Qt::NoModifier);
    QApplication::sendEvent(grid.viewport(), &move);
    QTest::keyClick(&grid, Qt::Key_Escape);
    QTest::mouseRelease(grid.viewport(), Qt::LeftButton, {}, at.toPoint());
    EXPECT_EQ(edits, 0);
    EXPECT_EQ(onlyNote().onset, Beats(5));
}

TEST_F(NoteGridGestures, GoesOnWithAGestureWhileSomethingElseChanges) {
    showWithNote(Beats(5), Beats(1), 67);
    const QPoint to = head(1) + cell(Beats(7), 65) - cell(Beats(5), 67);
    QTest::mousePress(grid.viewport(), Qt::LeftButton, {}, head(1));
    const auto moveTo = [&](QPoint at) {
        QMouseEvent move(QEvent::MouseMove, at, grid.viewport()->mapToGlobal(at), Qt::NoButton,
                         Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(grid.viewport(), &move);
    };
    moveTo(to);
    Study faster = *current;
    faster.practice.speed = 0.6;
    show(faster);
    EXPECT_EQ(grid.cursor(), (GridCursor{Beats(7), 65})) << "the note stays in hand";
    QTest::mouseRelease(grid.viewport(), Qt::LeftButton, {}, to);
    EXPECT_EQ(onlyNote().onset, Beats(7));
    EXPECT_EQ(current->practice.speed, 0.6);
    EXPECT_EQ(edits, 1);
}

TEST_F(NoteGridGestures, TakesTheSecondPressOfAQuickPair) {
    QTest::mouseClick(grid.viewport(), Qt::LeftButton, {}, cell(Beats(5), 67));
    const QPoint from = head(onlyNote().id.value);
    const QPoint to = from + cell(Beats(7), 67) - cell(Beats(5), 67);
    QMouseEvent second(QEvent::MouseButtonDblClick, from, grid.viewport()->mapToGlobal(from), Qt::LeftButton,
                       Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(grid.viewport(), &second);
    QMouseEvent move(QEvent::MouseMove, to, grid.viewport()->mapToGlobal(to), Qt::NoButton, Qt::LeftButton,
                     Qt::NoModifier);
    QApplication::sendEvent(grid.viewport(), &move);
    QTest::mouseRelease(grid.viewport(), Qt::LeftButton, {}, to);
    EXPECT_EQ(onlyNote().onset, Beats(7));
}

TEST_F(NoteGridGestures, ScrollsOnWhereADragLeadsOutOfTheCells) {
    showWithNote(Beats(5), Beats(1), 67);
    const QRectF cells = grid.geometryOfCells().cells();
    const int highestSeen = *grid.geometryOfCells().midiAt(cells.top() + 1);
    drag(head(1), QPoint(head(1).x(), qRound(cells.top()) - 20));
    EXPECT_GT(onlyNote().pitch.midi, highestSeen);
    EXPECT_EQ(edits, 1);
}

} // namespace
} // namespace earwright::ui
