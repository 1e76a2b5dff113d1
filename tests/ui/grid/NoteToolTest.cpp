#include "ui/grid/NoteTool.h"

#include "tests/ui/grid/SampleStudy.h"

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

class NoteToolGesture : public testing::Test {
protected:
    NoteToolGesture() { use(emptySample()); }

    void use(Study given) {
        study = shared(std::move(given));
        columns = GridColumns(*study, {Beats(4), Beats(12)});
        geometry = GridGeometry(
            columns, QSizeF(gridmargins::labels + 480 + gridmargins::right, gridmargins::top + 600),
            QPointF(0, 200));
    }
    /// The middle of a cell.
    QPointF cell(std::size_t column, int midi) const { return geometry.cell(columns[column], midi).center(); }
    void press(QPointF at) { tool.press(study, columns, geometry, at); }
    void writeOne(const Beats& onset, const Beats& length, int midi) {
        Study given = emptySample();
        given.notes = {sampleNote(1, onset, length, midi)};
        use(std::move(given));
    }
    const Note& theNote() const { return *study->note(NoteId{1}); }

    std::shared_ptr<const Study> study;
    GridColumns columns;
    GridGeometry geometry;
    NoteTool tool;
};

} // namespace

TEST_F(NoteToolGesture, WritesANoteWhereAnEmptyCellIsClicked) {
    press(cell(3, 67));
    ASSERT_TRUE(tool.isActive());
    EXPECT_EQ(tool.draft()->notes.size(), 1u);
    EXPECT_TRUE(study->notes.empty());
    const auto edit = tool.release();
    ASSERT_TRUE(edit);
    const Note& note = edit->study.notes.front();
    EXPECT_EQ(note.onset, columns[3].range.begin);
    EXPECT_EQ(note.length, Beats(1, 2));
    EXPECT_EQ(note.pitch.midi, 67);
    EXPECT_FALSE(tool.isActive());
}

TEST_F(NoteToolGesture, WritesALongerNoteWhenDraggedOn) {
    press(cell(3, 67));
    tool.drag(cell(6, 70)); // pitch stays where it was pressed
    const auto edit = tool.release();
    ASSERT_TRUE(edit);
    EXPECT_EQ(edit->study.notes.front().range(), (Range{Beats(11, 2), Beats(15, 2)}));
    EXPECT_EQ(edit->study.notes.front().pitch.midi, 67);
}

TEST_F(NoteToolGesture, MovesANoteInTimeAndPitchAsOneEdit) {
    writeOne(Beats(4), Beats(1), 67);
    const QPointF grip = geometry.head(theNote()) + QPointF(2, 3);
    press(grip);
    tool.drag(grip + QPointF(30, -16));
    tool.drag(grip + QPointF(92, -32));
    const auto edit = tool.release();
    ASSERT_TRUE(edit);
    const Note& note = *edit->study.note(NoteId{1});
    EXPECT_EQ(note.onset, Beats(11, 2));
    EXPECT_EQ(note.length, Beats(1));
    EXPECT_EQ(note.pitch.midi, 69);
    EXPECT_EQ(edit->name.toStdString(), "move note");
}

TEST_F(NoteToolGesture, LengthensANoteByItsTail) {
    writeOne(Beats(4), Beats(1), 67);
    press(geometry.tailEnd(theNote()));
    tool.drag(cell(4, 60));
    const auto edit = tool.release();
    ASSERT_TRUE(edit);
    EXPECT_EQ(edit->study.note(NoteId{1})->end(), Beats(13, 2));
    EXPECT_EQ(edit->study.note(NoteId{1})->pitch.midi, 67);
    EXPECT_EQ(edit->name.toStdString(), "change length");
}

TEST_F(NoteToolGesture, ShortensANoteToNoLessThanAColumn) {
    writeOne(Beats(5), Beats(2), 67);
    press(geometry.tailEnd(theNote()));
    tool.drag(QPointF(0, geometry.y(67)));
    EXPECT_EQ(tool.release()->study.note(NoteId{1})->length, Beats(1, 2));
}

TEST_F(NoteToolGesture, MakesNoEditOfAClickOnANote) {
    writeOne(Beats(4), Beats(1), 67);
    for (const QPointF at : {geometry.head(theNote()), geometry.tailEnd(theNote())}) {
        press(at);
        ASSERT_TRUE(tool.isActive());
        tool.drag(at);
        EXPECT_FALSE(tool.release());
    }
}

TEST_F(NoteToolGesture, KeepsANoteOffTheGridWhereItIsWhileOnlyItsPitchMoves) {
    writeOne(Beats(13, 3), Beats(1, 3), 67);
    const QPointF grip = geometry.head(theNote());
    press(grip);
    tool.drag(grip + QPointF(0, -16));
    EXPECT_EQ(tool.release()->study.note(NoteId{1})->onset, Beats(13, 3));
}

TEST_F(NoteToolGesture, TakesNothingOutsideTheCells) {
    press(QPointF(5, 5));
    EXPECT_FALSE(tool.isActive());
    EXPECT_FALSE(tool.release());
}

TEST_F(NoteToolGesture, ForgetsEverythingWhenCancelled) {
    press(cell(3, 67));
    tool.cancel();
    EXPECT_FALSE(tool.release());
}

TEST_F(NoteToolGesture, TellsWhatAPressWouldTake) {
    writeOne(Beats(4), Beats(1), 67);
    const auto grip = [&](QPointF at) { return NoteTool::gripAt(*study, columns, geometry, at); };
    EXPECT_EQ(grip(geometry.head(theNote())), Grip::Note);
    EXPECT_EQ(grip(geometry.tailEnd(theNote())), Grip::TailEnd);
    EXPECT_EQ(grip(cell(5, 67)), Grip::EmptyCell);
    EXPECT_EQ(grip(QPointF(10, 300)), Grip::Nothing);
}

TEST_F(NoteToolGesture, GoesOnOverAStudyThatChangedElsewhere) {
    press(cell(3, 67));
    tool.drag(cell(6, 67));
    Study other = *study;
    other.practice.semitones = 2;
    other.nextId += 5;
    ASSERT_TRUE(tool.goOn(shared(other)));
    const auto edit = tool.release();
    ASSERT_TRUE(edit);
    EXPECT_EQ(edit->study.practice.semitones, 2);
    ASSERT_EQ(edit->study.notes.size(), 1u);
    EXPECT_EQ(edit->study.notes.front().range(), (Range{Beats(11, 2), Beats(15, 2)}));
}

TEST_F(NoteToolGesture, DoesNotGoOnWhereNotesOrColumnsChanged) {
    writeOne(Beats(5), Beats(1), 67);
    press(geometry.head(theNote()));
    ASSERT_TRUE(tool.isActive());
    Study other = *study;
    other.notes[0].pitch.midi = 60;
    EXPECT_FALSE(tool.goOn(shared(other)));
    other = *study;
    other.divisions[Beats(5)] = BeatDivision::Three;
    EXPECT_FALSE(tool.goOn(shared(other)));
    other = *study;
    other.meter = {3, 4};
    EXPECT_FALSE(tool.goOn(shared(other)));
    other = *study;
    other.spans.clear();
    EXPECT_FALSE(tool.goOn(shared(other)));
}
