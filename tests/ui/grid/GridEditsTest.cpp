#include "ui/grid/GridEdits.h"

#include "tests/ui/grid/SampleStudy.h"
#include "ui/grid/MarkWords.h"

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
    study.divisions[Beats(5)] = BeatDivision::Three;
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

// D flat to D: the line raises C to it (common practice), and D flat is the key's other name.
TEST_F(GridEdits, RespellANoteFromTheNameItHasByItself) {
    study.chart.form.clear();
    study.notes = {sampleNote(1, Beats(4), Beats(1), 61), sampleNote(2, Beats(5), Beats(1), 62)};
    const auto edit = respelled(study, WrittenNames(study), {NoteId{1}});
    ASSERT_TRUE(edit);
    EXPECT_EQ(edit->study.note(NoteId{1})->pitch.spelling, (PitchName{Step::D, -1}));
    EXPECT_EQ(edit->name.toStdString(), "respell");
    EXPECT_FALSE(edit->audible);
    take(respelled(study, WrittenNames(study), {NoteId{1}, NoteId{2}}));
    EXPECT_EQ(note(2).pitch.spelling, (PitchName{Step::C, 2}));
    EXPECT_FALSE(respelled(study, WrittenNames(study), {}));
}

// Three eighths in the time of two quarters, as three keys write them and one spreads them.
TEST_F(GridEdits, SpreadThreeNotesOverTwoBeats) {
    study.notes = {sampleNote(1, Beats(4), Beats(1, 2), 65), sampleNote(2, Beats(9, 2), Beats(1, 2), 67),
                   sampleNote(3, Beats(5), Beats(1, 2), 69)};
    const auto edit = spread(study, {NoteId{1}, NoteId{2}, NoteId{3}});
    ASSERT_TRUE(edit);
    EXPECT_EQ(edit->name.toStdString(), "spread evenly");
    take(edit);
    EXPECT_EQ(note(2).onset, Beats(14, 3));
    EXPECT_EQ(note(3).end(), Beats(6));
    EXPECT_EQ(columns()[columns().indexAt(Beats(14, 3))].range.length(), Beats(1, 3));
    EXPECT_FALSE(spread(study, {NoteId{1}}));
}

TEST_F(GridEdits, LengthenByColumnsOverBeatsOfDifferentDivision) {
    study.divisions[Beats(5)] = BeatDivision::Three;
    study.notes = {sampleNote(1, Beats(4), Beats(1, 2), 65)};
    take(lengthened(study, NoteId{1}, 2));
    EXPECT_EQ(note(1).end(), Beats(16, 3));
    take(lengthened(study, NoteId{1}, -1));
    EXPECT_EQ(note(1).end(), Beats(5));
}

TEST_F(GridEdits, LeaveANoteAtLeastOneColumnLong) {
    study.notes = {sampleNote(1, Beats(4), Beats(1, 2), 65)};
    EXPECT_FALSE(lengthened(study, NoteId{1}, -1));
    study.notes[0].length = Beats(2);
    take(lengthened(study, NoteId{1}, -9));
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

TEST_F(GridEdits, MoveANoteThatBeganBeforeThePage) {
    study.notes = {sampleNote(1, Beats(7, 2), Beats(2), 65)};
    take(moved(study, columns(), NoteId{1}, 0, -1));
    EXPECT_EQ(note(1).onset, Beats(7, 2));
    EXPECT_EQ(note(1).pitch.midi, 64);
    EXPECT_FALSE(moved(study, columns(), NoteId{1}, -1, 0)) << "further out of sight";
    take(moved(study, columns(), NoteId{1}, 1, 0));
    EXPECT_EQ(note(1).onset, Beats(4));
}

TEST_F(GridEdits, MoveANoteOffTheGridToTheNextLine) {
    study.notes = {sampleNote(1, Beats(13, 3), Beats(1, 3), 65)};
    take(moved(study, columns(), NoteId{1}, 1, 0));
    EXPECT_EQ(note(1).onset, Beats(9, 2));
}

TEST_F(GridEdits, PutEachKindOfPhrasingOnANoteAndTakeItAwayByName) {
    study.notes = {sampleNote(1, Beats(4), Beats(1), 65)};
    for (const PhrasingKind kind : allPhrasingKinds) {
        const auto edit = phrased(study, {NoteId{1}}, kind);
        ASSERT_TRUE(edit) << static_cast<int>(kind);
        EXPECT_TRUE(carries(edit->study.notes[0].phrasing, kind)) << static_cast<int>(kind);
        EXPECT_EQ(edit->name, markName(kind));
        EXPECT_FALSE(edit->name.isEmpty());
    }
}

TEST_F(GridEdits, MoveSeveralNotesByASemitoneWithoutLosingOne) {
    // A double stop a semitone apart: the upper one has to make room first.
    study.notes = {sampleNote(1, Beats(4), Beats(1), 65), sampleNote(2, Beats(4), Beats(1), 66)};
    take(transposed(study, {NoteId{1}, NoteId{2}}, 1));
    ASSERT_EQ(study.notes.size(), 2u);
    EXPECT_EQ(note(1).pitch.midi, 66);
    EXPECT_EQ(note(2).pitch.midi, 67);
    study.notes[1].pitch.midi = highestMidi;
    EXPECT_FALSE(transposed(study, {NoteId{1}, NoteId{2}}, 1)) << "all or none";
}

// From the last half beat of bar 3, which ends the bars shown, into bar 4, whose first beat is a triplet.
TEST_F(GridEdits, LengthenOverTheBarLineAndPastTheBarsShown) {
    study.divisions[Beats(12)] = BeatDivision::Three;
    study.notes = {sampleNote(1, Beats(23, 2), Beats(1, 2), 65)};
    take(lengthened(study, NoteId{1}, 1));
    EXPECT_EQ(note(1).end(), Beats(37, 3));
    take(lengthened(study, NoteId{1}, 3));
    EXPECT_EQ(note(1).end(), Beats(27, 2));
    take(lengthened(study, NoteId{1}, -3));
    EXPECT_EQ(note(1).end(), Beats(37, 3));
}

TEST_F(GridEdits, LengthenAPickupBeforeBarOne) {
    study.divisions[Beats(-1)] = BeatDivision::Five;
    study.notes = {sampleNote(1, Beats(-3, 5), Beats(1, 5), 65)};
    take(lengthened(study, NoteId{1}, 3));
    EXPECT_EQ(note(1).end(), Beats(1, 2)) << "two fifths to the bar line, then half a beat";
    take(lengthened(study, NoteId{1}, -2));
    EXPECT_EQ(note(1).end(), Beats(-1, 5));
}

TEST_F(GridEdits, ChangeLoudnessUpToItsLimits) {
    study.notes = {sampleNote(1, Beats(4), Beats(1), 65)};
    take(louder(study, {NoteId{1}}, 0.1));
    take(louder(study, {NoteId{1}}, 0.1));
    EXPECT_EQ(note(1).loudness, 0.8);
    take(louder(study, {NoteId{1}}, 5));
    EXPECT_EQ(note(1).loudness, 1);
    EXPECT_FALSE(louder(study, {NoteId{1}}, 0.1));
}

TEST_F(GridEdits, DivideABeatInOneToTwelveAndKeepWhatIsThere) {
    study.notes = {sampleNote(1, Beats(16, 3), Beats(1, 3), 65)};
    const std::vector<Note> before = study.notes;
    for (int parts = 1; parts <= 12; ++parts) {
        const auto edit = divided(study, Beats(5), parts);
        ASSERT_EQ(edit.has_value(), parts != 2) << "two is how it was";
        if (!edit) continue;
        EXPECT_EQ(static_cast<int>(edit->study.divisionOf(5)), parts);
        EXPECT_EQ(edit->study.notes, before);
    }
    EXPECT_FALSE(divided(study, Beats(5), 0));
    EXPECT_FALSE(divided(study, Beats(5), 13));
}

TEST_F(GridEdits, AnswerNothingForANoteThatIsNotThere) {
    EXPECT_FALSE(removed(study, {NoteId{9}}));
    EXPECT_FALSE(lengthened(study, NoteId{9}, 1));
    EXPECT_FALSE(moved(study, columns(), NoteId{9}, 1, 0));
    EXPECT_FALSE(phrased(study, {NoteId{9}}, PhrasingKind::Slur));
    EXPECT_FALSE(louder(study, {NoteId{9}}, 0.1));
}
