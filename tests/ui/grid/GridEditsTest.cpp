#include "ui/grid/GridEdits.h"

#include "tests/ui/grid/SampleStudy.h"

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

class GridEdits : public testing::Test {
protected:
    GridColumns columns() const { return {study, {Beats(4), Beats(12)}}; }
    const Note& note(std::uint64_t id) const { return *study.note(NoteId{id}); }
    void take(std::optional<GridEdit> edit) {
        ASSERT_TRUE(edit);
        study = edit->study;
    }

    Study study = emptySample();
};

} // namespace

TEST_F(GridEdits, WriteANoteAsLongAsItsColumn) {
    study.divisions[5] = BeatDivision::Three;
    const auto edit = noteInOrOut(study, columns(), {Beats(16, 3), 65});
    ASSERT_TRUE(edit && edit->note);
    const Note* note = edit->study.note(*edit->note);
    EXPECT_EQ(note->onset, Beats(16, 3));
    EXPECT_EQ(note->length, Beats(1, 3));
    EXPECT_EQ(note->pitch.midi, 65);
    EXPECT_TRUE(edit->audible);
    EXPECT_EQ(edit->name.toStdString(), "write note");
}

TEST_F(GridEdits, TakeTheNoteOutOfTheCellItSoundsIn) {
    study.notes = {sampleNote(1, Beats(4), Beats(2), 65)};
    // On its tail, a beat after its head.
    const auto edit = noteInOrOut(study, columns(), {Beats(5), 65});
    ASSERT_TRUE(edit);
    EXPECT_TRUE(edit->study.notes.empty());
    EXPECT_FALSE(edit->note);
    EXPECT_FALSE(edit->audible);
}

TEST_F(GridEdits, LengthenByColumnsOverBeatsOfDifferentDivision) {
    study.divisions[5] = BeatDivision::Three;
    study.notes = {sampleNote(1, Beats(4), Beats(1, 2), 65)};
    take(lengthened(study, columns(), NoteId{1}, 2));
    EXPECT_EQ(note(1).end(), Beats(16, 3));
    take(lengthened(study, columns(), NoteId{1}, -1));
    EXPECT_EQ(note(1).end(), Beats(5));
}

TEST_F(GridEdits, LeaveANoteAtLeastOneColumnLong) {
    study.notes = {sampleNote(1, Beats(4), Beats(1, 2), 65)};
    EXPECT_FALSE(lengthened(study, columns(), NoteId{1}, -1));
    study.notes[0].length = Beats(2);
    take(lengthened(study, columns(), NoteId{1}, -9));
    EXPECT_EQ(note(1).length, Beats(1, 2));
}

TEST_F(GridEdits, MoveANoteWithItsLength) {
    study.notes = {sampleNote(1, Beats(4), Beats(3, 4), 65)};
    take(moved(study, columns(), NoteId{1}, 3, -2));
    EXPECT_EQ(note(1).onset, Beats(11, 2));
    EXPECT_EQ(note(1).length, Beats(3, 4));
    EXPECT_EQ(note(1).pitch.midi, 63);
}

TEST_F(GridEdits, KeepANoteWithinTheBarsShownAndThePitchesOfALine) {
    study.notes = {sampleNote(1, Beats(4), Beats(1, 2), highestMidi)};
    EXPECT_FALSE(moved(study, columns(), NoteId{1}, -1, 0));
    EXPECT_FALSE(moved(study, columns(), NoteId{1}, 0, 1));
    study.notes[0].onset = Beats(23, 2);
    EXPECT_FALSE(moved(study, columns(), NoteId{1}, 1, 0));
}

TEST_F(GridEdits, MoveANoteOffTheGridToTheNextLine) {
    study.notes = {sampleNote(1, Beats(13, 3), Beats(1, 3), 65)};
    take(moved(study, columns(), NoteId{1}, 1, 0));
    EXPECT_EQ(note(1).onset, Beats(9, 2));
}

TEST_F(GridEdits, PutEachKindOfPhrasingOnANote) {
    study.notes = {sampleNote(1, Beats(4), Beats(1), 65)};
    for (const PhrasingKind kind : {PhrasingKind::Slide, PhrasingKind::Grace, PhrasingKind::Trill,
                                    PhrasingKind::Slur, PhrasingKind::Accent})
        take(phrased(study, NoteId{1}, kind));
    const Phrasing& phrasing = note(1).phrasing;
    EXPECT_EQ(phrasing.slideIn, SlideFrom::Below);
    EXPECT_EQ(phrasing.graceNotes, std::vector<int>{64});
    EXPECT_EQ(phrasing.trill, 1);
    EXPECT_TRUE(phrasing.slurred);
    EXPECT_TRUE(phrasing.accented);
    take(phrased(study, NoteId{1}, PhrasingKind::Ghost));
    EXPECT_TRUE(note(1).phrasing.ghosted);
}

TEST_F(GridEdits, ChangeLoudnessUpToItsLimits) {
    study.notes = {sampleNote(1, Beats(4), Beats(1), 65)};
    take(louder(study, NoteId{1}, 0.1));
    take(louder(study, NoteId{1}, 0.1));
    EXPECT_EQ(note(1).loudness, 0.8);
    take(louder(study, NoteId{1}, 5));
    EXPECT_EQ(note(1).loudness, 1);
    EXPECT_FALSE(louder(study, NoteId{1}, 0.1));
}

TEST_F(GridEdits, DivideABeatOnlyAsTheGridCan) {
    take(divided(study, 5, 3));
    EXPECT_EQ(study.divisionOf(5), BeatDivision::Three);
    EXPECT_FALSE(divided(study, 5, 3));
    EXPECT_FALSE(divided(study, 5, 5));
}

TEST_F(GridEdits, AnswerNothingForANoteThatIsNotThere) {
    EXPECT_FALSE(removed(study, NoteId{9}));
    EXPECT_FALSE(lengthened(study, columns(), NoteId{9}, 1));
    EXPECT_FALSE(moved(study, columns(), NoteId{9}, 1, 0));
    EXPECT_FALSE(phrased(study, NoteId{9}, PhrasingKind::Slur));
    EXPECT_FALSE(louder(study, NoteId{9}, 0.1));
}
