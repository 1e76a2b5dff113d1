#include "core/study/History.h"

#include "core/study/NoteEdits.h"
#include "core/study/PracticeEdits.h"
#include "core/study/RecordingEdits.h"

#include <gtest/gtest.h>
#include <random>
#include <vector>

namespace earwright {
namespace {

Study withNoteAt(const Study& study, int beat) {
    return addNote(study, {Pitch{60, {}}, Beats(beat), Beats(1)}).study;
}

TEST(History, UndoAndRedoGoBackAndForthByName) {
    History history{Study{}};
    history.apply("add note", withNoteAt(history.present(), 0));
    history.apply("set title", setTitle(history.present(), "Line"));
    EXPECT_EQ(history.undoName(), "set title");
    history.undo();
    EXPECT_EQ(history.present().title, "");
    EXPECT_EQ(history.undoName(), "add note");
    EXPECT_EQ(history.redoName(), "set title");
    history.undo();
    EXPECT_FALSE(history.canUndo());
    EXPECT_TRUE(history.present().notes.empty());
    history.redo();
    history.redo();
    EXPECT_EQ(history.present().title, "Line");
    EXPECT_EQ(history.present().notes.size(), 1u);
    EXPECT_FALSE(history.canRedo());
}

TEST(History, HasNoEnd) {
    History history{Study{}};
    for (int beat = 0; beat < 500; ++beat)
        history.apply("add note", withNoteAt(history.present(), beat));
    for (int step = 0; step < 500; ++step)
        history.undo();
    EXPECT_TRUE(history.present().notes.empty());
    EXPECT_FALSE(history.canUndo());
}

TEST(History, ANewEditDropsWhatWasUndone) {
    History history{Study{}};
    history.apply("one", setTitle(history.present(), "one"));
    history.undo();
    history.apply("two", setTitle(history.present(), "two"));
    EXPECT_FALSE(history.canRedo());
    EXPECT_EQ(history.undoName(), "two");
}

TEST(History, AnEditThatChangesNothingIsNoStep) {
    History history{Study{}};
    history.apply("nothing", history.present());
    EXPECT_FALSE(history.canUndo());
}

TEST(History, AWholeDragIsOneStep) {
    History history{Study{}};
    const StudyWithNote note = addNote(history.present(), {Pitch{60, {}}, Beats(0), Beats(1)});
    history.apply("add note", note.study);
    history.apply("move note", moveNote(history.present(), note.id, Pitch{61, {}}, Beats(0)));
    for (int midi = 62; midi < 70; ++midi)
        history.amend(moveNote(history.beforeLastStep(), note.id, Pitch{midi, {}}, Beats(1)));
    EXPECT_EQ(history.present().notes[0].pitch.midi, 69);
    history.undo();
    EXPECT_EQ(history.present().notes[0].pitch.midi, 60);
    EXPECT_EQ(history.undoName(), "add note");
}

TEST(History, UndoLeavesListeningTheRecordingAndTheEarRecordAlone) {
    History history{Study{}};
    history.apply("add note", withNoteAt(history.present(), 0));
    history.replacePresent(setSpeed(history.present(), 0.5));
    history.replacePresent(setRecording(history.present(), {"line.flac", "", SampleRate{48000}, Frames(9)}));
    Study checked = history.present();
    checked.earRecord.phrases.push_back({SpanId{1}, {{Seconds(2), HelpStep::WhichWay, true}}});
    history.replacePresent(checked);
    EXPECT_EQ(history.undoName(), "add note");
    history.undo();
    EXPECT_TRUE(history.present().notes.empty());
    EXPECT_DOUBLE_EQ(history.present().practice.speed, 0.5);
    EXPECT_EQ(history.present().recording.path, "line.flac");
    EXPECT_EQ(history.present().earRecord, checked.earRecord);
    history.replacePresent(setSpeed(history.present(), 0.7));
    history.redo();
    EXPECT_DOUBLE_EQ(history.present().practice.speed, 0.7);
    EXPECT_EQ(history.present().notes.size(), 1u);
}

TEST(History, WhatUndoLeavesAloneCanBeReplacedInTheMiddleOfADrag) {
    History history{Study{}};
    history.apply("set title", setTitle(history.present(), "a"));
    const Study before = history.beforeLastStep();
    history.replacePresent(setSpeed(history.present(), 0.5));
    history.amend(setTitle(before, "b"));
    EXPECT_EQ(history.present().title, "b");
    EXPECT_DOUBLE_EQ(history.present().practice.speed, 0.5);
}

TEST(History, OnlyWhatUndoLeavesAloneIsTakenWithoutAStep) {
    History history{Study{}};
    history.apply("set title", setTitle(history.present(), "a"));
    history.replacePresent(setSpeed(setTitle(history.present(), "b"), 0.5));
    EXPECT_EQ(history.present().title, "a");
    history.apply("speed", setSpeed(history.present(), 0.7));
    EXPECT_EQ(history.undoName(), "set title");
    EXPECT_DOUBLE_EQ(history.present().practice.speed, 0.7);
}

// Seeded: any edits, undone and redone in any order, lead through the same studies.
TEST(History, AnyWayBackAndForthPassesTheSameStudies) {
    std::mt19937 random(9);
    History history{Study{}};
    std::vector<Study> passed{history.present()};
    std::size_t at = 0;
    for (int round = 0; round < 500; ++round) {
        const int beat = static_cast<int>(random() % 20);
        switch (random() % 3) {
        case 0:
            history.apply("add note", withNoteAt(history.present(), beat));
            passed.resize(++at);
            passed.push_back(history.present());
            break;
        case 1:
            if (at > 0) --at;
            history.undo();
            break;
        default:
            if (at + 1 < passed.size()) ++at;
            history.redo();
        }
        EXPECT_EQ(history.present().notes, passed[at].notes);
        EXPECT_EQ(history.canUndo(), at > 0);
        EXPECT_EQ(history.canRedo(), at + 1 < passed.size());
    }
}

TEST(History, AnIdGivenOutOnceIsNotGivenOutAgainAfterUndo) {
    History history{Study{}};
    history.apply("add note", withNoteAt(history.present(), 0));
    const NoteId first = history.present().notes[0].id;
    history.undo();
    history.apply("add note", withNoteAt(history.present(), 0));
    EXPECT_NE(history.present().notes[0].id, first);
}

TEST(History, KnowsWhetherItsWorkIsSaved) {
    History history{Study{}};
    EXPECT_TRUE(history.isSaved());
    history.apply("set title", setTitle(history.present(), "Line"));
    EXPECT_FALSE(history.isSaved());
    history.markSaved();
    EXPECT_TRUE(history.isSaved());
    history.undo();
    EXPECT_FALSE(history.isSaved());
    history.redo();
    EXPECT_TRUE(history.isSaved());
    EXPECT_FALSE(History(Study{}, false).isSaved());
}

TEST(History, AnEditMadeWhileTheStudyWasBeingWrittenIsNotSaved) {
    History history{Study{}, false};
    const auto written = history.shared();
    history.apply("set title", setTitle(history.present(), "Line"));
    history.markSaved(written);
    EXPECT_FALSE(history.isSaved());
    history.undo();
    EXPECT_TRUE(history.isSaved());
}

TEST(History, ListeningInAnotherWayIsNoUnsavedWorkButAnotherRecordingIs) {
    History history{Study{}};
    history.replacePresent(setSpeed(history.present(), 0.5));
    EXPECT_TRUE(history.isSaved());
    history.replacePresent(setRecording(history.present(), {"other.flac", "", {}, {}}));
    EXPECT_FALSE(history.isSaved());
}

TEST(History, AStudyHandedOutNeverChanges) {
    History history{Study{}};
    history.apply("set title", setTitle(history.present(), "before"));
    const auto held = history.shared();
    history.amend(setTitle(history.present(), "after"));
    history.undo();
    EXPECT_EQ(held->title, "before");
}

} // namespace
} // namespace earwright
