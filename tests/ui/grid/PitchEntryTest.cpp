#include "ui/grid/PitchEntry.h"

#include "core/study/NoteEdits.h"
#include "tests/ui/grid/SampleStudy.h"

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

class PitchEntries : public testing::Test {
protected:
    void enter(int midi) {
        ASSERT_TRUE(cursor);
        const GridColumns columns(study, {Beats(4), Beats(12)});
        PitchEntry entry = entered(study, columns, *cursor, midi);
        study = std::move(entry.study);
        cursor = entry.next;
    }
    Study study = emptySample();
    std::optional<GridCursor> cursor = GridCursor{Beats(4), 60};
};

} // namespace

TEST_F(PitchEntries, WriteOneColumnAfterTheOther) {
    enter(64);
    enter(67);
    ASSERT_EQ(study.notes.size(), 2u);
    EXPECT_EQ(study.notes[0].range(), (Range{Beats(4), Beats(9, 2)}));
    EXPECT_EQ(study.notes[0].pitch.midi, 64);
    EXPECT_EQ(study.notes[1].onset, Beats(9, 2));
    EXPECT_EQ(cursor, (GridCursor{Beats(5), 67}));
}

// A rhythm that was tapped first: each note gets its pitch and keeps its length.
TEST_F(PitchEntries, GiveNotesThatAreThereTheirPitchAndGoFromOneToTheNext) {
    study.notes = {sampleNote(1, Beats(4), Beats(3, 2), 60), sampleNote(2, Beats(6), Beats(1, 2), 60),
                   sampleNote(3, Beats(13, 2), Beats(1), 60)};
    for (const int midi : {64, 67, 69})
        enter(midi);
    ASSERT_EQ(study.notes.size(), 3u);
    EXPECT_EQ(study.notes[0].pitch.midi, 64);
    EXPECT_EQ(study.notes[0].length, Beats(3, 2));
    EXPECT_EQ(study.notes[1].pitch.midi, 67);
    EXPECT_EQ(study.notes[2].pitch.midi, 69);
    EXPECT_EQ(cursor, (GridCursor{Beats(15, 2), 69})) << "behind the last note's end";
}

TEST_F(PitchEntries, GoOnFromANoteThatHasItsPitchAlready) {
    study.notes = {sampleNote(1, Beats(4), Beats(1), 64), sampleNote(2, Beats(5), Beats(1), 60)};
    const Study before = study;
    enter(64);
    EXPECT_EQ(study, before);
    EXPECT_EQ(cursor, (GridCursor{Beats(5), 60}));
}

TEST_F(PitchEntries, EndBehindTheLastColumn) {
    cursor = GridCursor{Beats(23, 2), 60};
    enter(64);
    EXPECT_EQ(study.notes.size(), 1u);
    EXPECT_FALSE(cursor);
}

TEST_F(PitchEntries, DropANameThatNoLongerFits) {
    study.notes = {sampleNote(1, Beats(4), Beats(1), 61)};
    study.notes[0].pitch.spelling = PitchName{Step::C, 1};
    enter(64);
    EXPECT_FALSE(study.notes[0].pitch.spelling);
}

TEST_F(PitchEntries, WriteADoubleStopBesideTheNoteBefore) {
    study.notes = {sampleNote(1, Beats(4), Beats(3, 2), 60)};
    const NoteId first = study.notes[0].id;
    study = enteredBeside(study, first, 64);
    ASSERT_EQ(study.notes.size(), 2u);
    EXPECT_EQ(study.notes[1].range(), (Range{Beats(4), Beats(11, 2)}));
    EXPECT_EQ(study.notes[1].pitch.midi, 64);
    EXPECT_EQ(enteredBeside(study, first, 64), study) << "a pitch is there once";
    EXPECT_EQ(enteredBeside(removeNote(study, first), first, 67), removeNote(study, first));
}
