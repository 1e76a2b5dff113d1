#include "ui/grid/NoteGrid.h"

#include "tests/ui/grid/EditedGrid.h"

#include <QMenu>
#include <QScrollBar>
#include <QSignalSpy>

namespace earwright::ui {
namespace {

using NoteGridView = EditedGrid;

TEST_F(NoteGridView, ShowsTheBarsOfItsPhrase) {
    EXPECT_EQ(grid.shownBars(), (Range{Beats(4), Beats(12)}));
    EXPECT_EQ(grid.cursor().place, Beats(4));
}

TEST_F(NoteGridView, FollowsThePhraseWhenItsMarksMove) {
    Study study = *current;
    study.spans[1].range.end = Seconds(5);
    show(study);
    EXPECT_EQ(grid.shownBars(), (Range{Beats(4), Beats(8)}));
}

TEST_F(NoteGridView, HasNoColumnsUntilBarsAreMarked) {
    Study study = *current;
    study.beatMap = {};
    show(study);
    EXPECT_FALSE(grid.hasColumns());
    grid.noteInOrOut();
    grid.stepColumn(1);
    grid.moveCursor(1, 1);
    grid.setPlayhead(Seconds(3));
    QTest::mouseClick(grid.viewport(), Qt::LeftButton, {}, QPoint(200, 200));
    EXPECT_EQ(edits, 0);
}

TEST_F(NoteGridView, TellsOfEveryPlaceItsCursorGoesToBeANoteThereOrNot) {
    QSignalSpy moves(&grid, &NoteGrid::cursorMoved);
    grid.goTo(Beats(9));
    ASSERT_EQ(moves.count(), 1);
    EXPECT_EQ(moves.last()[0].value<Beats>(), Beats(9));
    grid.moveCursor(0, 1);
    EXPECT_EQ(moves.count(), 1) << "the place is the same";
}

TEST_F(NoteGridView, IsDrivenByKeysAlone) {
    grid.setFocus();
    const int start = grid.cursor().midi;
    QTest::keyClick(&grid, Qt::Key_Right);
    QTest::keyClick(&grid, Qt::Key_Right);
    QTest::keyClick(&grid, Qt::Key_Up);
    QTest::keyClick(&grid, Qt::Key_Down, Qt::ControlModifier);
    EXPECT_EQ(grid.cursor(), (GridCursor{Beats(5), start + 1 - 12}));
    grid.noteInOrOut();
    EXPECT_EQ(onlyNote().onset, Beats(5));
    grid.changeLength(3);
    EXPECT_EQ(onlyNote().length, Beats(2));
    grid.moveNote(1, 12);
    EXPECT_EQ(onlyNote().onset, Beats(11, 2));
    EXPECT_EQ(onlyNote().pitch.midi, start + 1);
    grid.togglePhrasing(PhrasingKind::Ghost);
    EXPECT_TRUE(onlyNote().phrasing.ghosted);
    grid.changeLoudness(1);
    EXPECT_NEAR(onlyNote().loudness, 0.7, 1e-9);
    grid.noteInOrOut();
    EXPECT_TRUE(current->notes.empty());
    EXPECT_EQ(edits, 6);
}

TEST_F(NoteGridView, KeepsTheSelectedNoteWhileItMoves) {
    showWithNote(Beats(5), Beats(1), 67);
    for (int i = 0; i < 3; ++i)
        grid.moveNote(1, 1);
    EXPECT_EQ(grid.selectedNote(), NoteId{1});
    EXPECT_EQ(onlyNote().pitch.midi, 70);
    EXPECT_EQ(onlyNote().onset, Beats(13, 2));
}

TEST_F(NoteGridView, StepsFromColumnToColumnAndAsksForItsSlice) {
    std::vector<Range<Seconds>> slices;
    QObject::connect(&grid, &NoteGrid::sliceRequested,
                     [&](const Range<Seconds>& slice) { slices.push_back(slice); });
    showWithNote(Beats(9, 2), Beats(1, 2), 62);
    grid.moveCursor(-100, 5);
    grid.stepColumn(1);
    // Half a beat is a quarter of a second, and beat 4 is at 3 s.
    ASSERT_EQ(slices.size(), 1u);
    EXPECT_NEAR(slices[0].begin.value, 3.25, 1e-9);
    EXPECT_NEAR(slices[0].end.value, 3.5, 1e-9);
    // The cursor goes to the note that begins there.
    EXPECT_EQ(grid.selectedNote(), NoteId{1});
    grid.stepColumn(-1);
    grid.stepColumn(-1);
    EXPECT_EQ(grid.cursor().place, Beats(4));
    EXPECT_EQ(slices.size(), 3u);
}

TEST_F(NoteGridView, DividesTheBeatUnderTheCursor) {
    grid.goTo(Beats(6));
    grid.setDivision(3);
    EXPECT_EQ(current->divisionOf(6), BeatDivision::Three);
    EXPECT_EQ(grid.cursor().place, Beats(6));
    grid.stepColumn(1);
    EXPECT_EQ(grid.cursor().place, Beats(19, 3));
}

TEST_F(NoteGridView, ScrollsToWhereTheCursorGoes) {
    for (const int midi : {lowestMidi, highestMidi}) {
        grid.moveCursor(0, midi - grid.cursor().midi);
        const QRectF row = grid.geometryOfCells().row(midi);
        EXPECT_TRUE(grid.geometryOfCells().cells().contains(row.center())) << midi;
    }
}

TEST_F(NoteGridView, KeepsTheCursorInSightWhereItLosesRoom) {
    const auto isSeen = [&](int midi) {
        return grid.geometryOfCells().cells().contains(grid.geometryOfCells().row(midi).center());
    };
    showWithNote(Beats(5), Beats(1), 67);
    while (isSeen(grid.cursor().midi - 1))
        grid.verticalScrollBar()->setValue(grid.verticalScrollBar()->value() - 1);
    ASSERT_TRUE(isSeen(67));
    grid.resize(600, 360);
    qApp->processEvents();
    EXPECT_TRUE(isSeen(67));
}

TEST_F(NoteGridView, LeavesWhatWasScrolledOutOfSightWhereItIs) {
    showWithNote(Beats(5), Beats(1), 67);
    grid.verticalScrollBar()->setValue(0);
    ASSERT_FALSE(grid.geometryOfCells().cells().contains(grid.geometryOfCells().row(67).center()));
    grid.resize(600, 460);
    qApp->processEvents();
    EXPECT_EQ(grid.verticalScrollBar()->value(), 0);
}

TEST_F(NoteGridView, TurnsThePageWhenTheEarLeavesWhatIsSeen) {
    grid.setRange({Beats(0), Beats(16)});
    grid.resize(400, 400);
    qApp->processEvents();
    ASSERT_GT(grid.geometryOfCells().scrollRange().width(), 0);
    grid.setPlayhead(Seconds(1.5));
    grid.setPlayhead(Seconds(8.4));
    const double x = grid.geometryOfCells().x(current->beatMap.beatsAt(Seconds(8.4)));
    EXPECT_TRUE(
        grid.geometryOfCells().cells().contains(QPointF(x, grid.geometryOfCells().cells().center().y())));
}

TEST_F(NoteGridView, SaysWhereTheCursorIs) {
    grid.goTo(Beats(9, 2));
    grid.moveCursor(0, 70 - grid.cursor().midi);
    EXPECT_EQ(grid.cursorText().toStdString(), "bar 2, beat 1½, 5 B♭4");
    EXPECT_TRUE(grid.accessibleDescription().startsWith(grid.cursorText()));
}

TEST_F(NoteGridView, TellsColumnsApartThatNoFractionTellsApart) {
    Study study = emptySample();
    study.divisions[Beats(5)] = BeatDivision::Seven;
    study.divisions[Beats(6)] = BeatDivision::Four;
    show(study);
    std::set<std::string> told;
    grid.goTo(Beats(5));
    for (int column = 0; column < 11; ++column) {
        told.insert(grid.cursorText().toStdString());
        grid.moveCursor(1, 0);
    }
    EXPECT_EQ(told.size(), 11u);
    grid.goTo(Beats(5) + Beats(3, 7));
    EXPECT_TRUE(grid.cursorText().contains("column 4 of 7")) << grid.cursorText().toStdString();
    grid.goTo(Beats(25, 4));
    EXPECT_FALSE(grid.cursorText().contains("column"));
}

TEST_F(NoteGridView, TellsThoseWhoListenTheHelpThatWasOpenedAtTheCursorAndNoMore) {
    showWithNote(Beats(5), Beats(1), 67);
    Hint hint;
    hint.range = current->beatMap.seconds(Range{Beats(5), Beats(6)});
    grid.setHints({hint});
    const QString before = grid.accessibleDescription();
    hint.step = HelpStep::HowFar;
    hint.kind = PlaceKind::WrongPitch;
    hint.direction = 1;
    hint.semitones = 2;
    grid.setHints({hint});
    EXPECT_EQ(grid.accessibleDescription(), before + ". The record is 2 semitones higher");
    grid.moveCursor(2, 0);
    EXPECT_FALSE(grid.accessibleDescription().contains("record"));
}

TEST_F(NoteGridView, TellsThatATrillGoesElsewhereAtItsSignAndNotAtTheNote) {
    showWithNote(Beats(5), Beats(1), 67);
    grid.togglePhrasing(PhrasingKind::Trill);
    CheckedNote note;
    note.note = onlyNote().id;
    note.midi = 67;
    note.verdict = Verdict::Supported;
    PhraseCheck check;
    check.notes.push_back(note);
    check.otherTrills.push_back({note.note, {}, 67, 2, 1, Verdict::Contradicted});
    grid.setCheck(&check);
    EXPECT_TRUE(grid.accessibleDescription().endsWith("supported, trill contradicted"))
        << grid.accessibleDescription().toStdString();
    grid.setMarkAnswers({{note.note, {{PhrasingMark::Trill, Verdict::Unclear}}}});
    EXPECT_TRUE(grid.accessibleDescription().endsWith("supported, trill unclear")) << "it is told once";
    grid.setMarkAnswers({});
    Study after = *current;
    after.notes.front().phrasing.trill = 1;
    grid.setStudy(std::make_shared<const Study>(after));
    EXPECT_FALSE(grid.accessibleDescription().contains("trill contradicted"));
}

TEST_F(NoteGridView, OffersTheMarksOfThePageByTheMenuKey) {
    grid.goTo(Beats(5));
    QContextMenuEvent menuKey(QContextMenuEvent::Keyboard, QPoint(), grid.mapToGlobal(QPoint()));
    QApplication::sendEvent(&grid, &menuKey);
    auto* menu = grid.findChild<QMenu*>();
    ASSERT_TRUE(menu);
    QAction* sfz = nullptr;
    bool hasWordsBelow = false;
    for (QAction* action : menu->actions()) {
        if (action->text() == "sfz") sfz = action;
        hasWordsBelow = hasWordsBelow || action->text() == "Words below the line…";
    }
    EXPECT_TRUE(hasWordsBelow);
    ASSERT_TRUE(sfz);
    sfz->trigger();
    EXPECT_EQ(current->page.dynamics, (std::vector<DynamicMark>{{Beats(5), Dynamic::sfz}}));
    menu->close();
}

TEST_F(NoteGridView, DoesNothingByAnyKeyWithoutAStudy) {
    grid.spreadNotes();
    grid.setStudy(nullptr);
    grid.removeNote();
    grid.respellNotes();
    grid.noteInOrOut();
    EXPECT_EQ(edits, 0);
}

TEST_F(NoteGridView, CallsANoteAsItIsRespelled) {
    grid.respellNotes();
    EXPECT_EQ(edits, 0) << "no note is chosen";
    showWithNote(Beats(9, 2), Beats(1, 2), 70);
    EXPECT_EQ(grid.cursorText().toStdString(), "bar 2, beat 1½, 5 B♭4");
    grid.respellNotes();
    EXPECT_EQ(grid.cursorText().toStdString(), "bar 2, beat 1½, 5 A♯4");
    EXPECT_EQ(lastEdit, "respell");
    grid.respellNotes();
    grid.respellNotes();
    EXPECT_EQ(grid.cursorText().toStdString(), "bar 2, beat 1½, 5 B♭4");
    EXPECT_FALSE(current->notes.front().pitch.spelling);
    EXPECT_TRUE(heard.empty());
}

TEST_F(NoteGridView, TellsOfItsSelection) {
    QSignalSpy changes(&grid, &NoteGrid::selectionChanged);
    showWithNote(Beats(5), Beats(1), 67);
    EXPECT_EQ(changes.count(), 1);
    EXPECT_TRUE(grid.accessibleDescription().endsWith(", note"));
    grid.moveCursor(0, 1);
    EXPECT_EQ(changes.count(), 2);
    EXPECT_EQ(grid.selectedNote(), std::nullopt);
}

TEST_F(NoteGridView, KeepsAwayTheDesksArrowsOnlyWhileItHasSomethingToMoveIn) {
    QKeyEvent right(QEvent::ShortcutOverride, Qt::Key_Right, Qt::NoModifier);
    right.ignore();
    QApplication::sendEvent(&grid, &right);
    EXPECT_TRUE(right.isAccepted());
    grid.setStudy(nullptr);
    QKeyEvent again(QEvent::ShortcutOverride, Qt::Key_Right, Qt::NoModifier);
    again.ignore();
    QApplication::sendEvent(&grid, &again);
    EXPECT_FALSE(again.isAccepted());
}

TEST_F(NoteGridView, SoundsAGhostedNoteSofter) {
    double loudness = 0;
    QObject::connect(&grid, &NoteGrid::audition, [&](int, double with) { loudness = with; });
    showWithNote(Beats(5), Beats(1), 67);
    grid.togglePhrasing(PhrasingKind::Ghost);
    EXPECT_LT(loudness, onlyNote().loudness);
    EXPECT_GT(loudness, 0);
}

} // namespace
} // namespace earwright::ui
