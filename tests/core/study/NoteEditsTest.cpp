#include "core/study/NoteEdits.h"

#include <cmath>
#include <gtest/gtest.h>
#include <random>
#include <string>

namespace earwright {
namespace {

/// The line as "midi@onset+length ...".
std::string line(const Study& study) {
    std::string text;
    for (const Note& note : study.notes)
        text += (text.empty() ? "" : " ") + std::to_string(note.pitch.midi) + "@" + toString(note.onset) +
                "+" + toString(note.length);
    return text;
}

StudyWithNote with(const Study& study, int midi, const Beats& onset, const Beats& length) {
    return addNote(study, {Pitch{midi, {}}, onset, length});
}

TEST(NoteEdits, ANoteIsAddedInOrderWithAnIdOfItsOwn) {
    const StudyWithNote first = with({}, 62, Beats(2), Beats(1));
    const StudyWithNote second = with(first.study, 60, Beats(0), Beats(1, 3));
    EXPECT_EQ(line(second.study), "60@0+1/3 62@2+1");
    EXPECT_NE(first.id, second.id);
    EXPECT_LT(second.id.value, second.study.nextId);
    EXPECT_EQ(second.study.note(second.id)->pitch.midi, 60);
}

TEST(NoteEdits, ANewNoteShortensTheOneThatSoundsIntoIt) {
    const Study study = with(with({}, 60, Beats(0), Beats(2)).study, 62, Beats(1), Beats(1)).study;
    EXPECT_EQ(line(study), "60@0+1 62@1+1");
}

TEST(NoteEdits, ANewNoteEndsWhereTheNextBegins) {
    const Study study = with(with({}, 62, Beats(1), Beats(1)).study, 60, Beats(0), Beats(2)).study;
    EXPECT_EQ(line(study), "60@0+1 62@1+1");
}

TEST(NoteEdits, TwoPitchesAtOneOnsetAreADoubleStop) {
    const Study study = with(with({}, 64, Beats(0), Beats(1)).study, 60, Beats(0), Beats(2)).study;
    EXPECT_EQ(line(study), "60@0+2 64@0+1");
}

TEST(NoteEdits, TheSamePitchAtTheSameOnsetReplacesTheNote) {
    const StudyWithNote first = with({}, 60, Beats(0), Beats(1));
    const StudyWithNote again = with(first.study, 60, Beats(0), Beats(1, 2));
    EXPECT_EQ(line(again.study), "60@0+1/2");
    EXPECT_EQ(again.study.note(first.id), nullptr);
}

TEST(NoteEdits, MovingANoteKeepsItsIdAndFitsItIntoTheLine) {
    const StudyWithNote first = with({}, 60, Beats(0), Beats(1));
    const Study both = with(first.study, 64, Beats(2), Beats(2)).study;
    const Study moved = moveNote(both, first.id, Pitch{61, {}}, Beats(3));
    EXPECT_EQ(line(moved), "64@2+1 61@3+1");
    EXPECT_EQ(moved.note(first.id)->pitch.midi, 61);
}

TEST(NoteEdits, MovingUpTakesGraceNotesAlongAndDropsASpellingThatNoLongerFits) {
    NewNote note{Pitch{63, PitchName{Step::E, -1}}, Beats(0), Beats(1)};
    note.phrasing.graceNotes = {62};
    const StudyWithNote written = addNote({}, note);
    EXPECT_EQ(written.study.notes[0].pitch.spelling, (PitchName{Step::E, -1}));
    const Study moved = moveNote(written.study, written.id, Pitch{65, PitchName{Step::E, -1}}, Beats(0));
    EXPECT_EQ(moved.notes[0].phrasing.graceNotes, std::vector<int>{64});
    EXPECT_FALSE(moved.notes[0].pitch.spelling);
}

TEST(NoteEdits, ALengthStopsAtTheNextOnset) {
    const StudyWithNote first = with({}, 60, Beats(0), Beats(1));
    const Study both = with(first.study, 62, Beats(3, 2), Beats(1)).study;
    EXPECT_EQ(line(setNoteLength(both, first.id, Beats(5))), "60@0+3/2 62@3/2+1");
    EXPECT_EQ(line(setNoteLength(both, first.id, Beats(1, 2))), "60@0+1/2 62@3/2+1");
}

TEST(NoteEdits, ALengthMayCrossBarsWhereNothingFollows) {
    const StudyWithNote note = with({}, 60, Beats(3), Beats(1));
    EXPECT_EQ(line(setNoteLength(note.study, note.id, Beats(7))), "60@3+7");
}

TEST(NoteEdits, WhatMakesNoSenseChangesNothing) {
    const StudyWithNote note = with({}, 60, Beats(0), Beats(1));
    EXPECT_EQ(moveNote(note.study, note.id, Pitch{highestMidi + 1, {}}, Beats(0)), note.study);
    EXPECT_EQ(moveNote(note.study, NoteId{99}, Pitch{60, {}}, Beats(0)), note.study);
    EXPECT_EQ(setNoteLength(note.study, note.id, Beats(0)), note.study);
    EXPECT_EQ(setNoteLength(note.study, note.id, Beats(-1)), note.study);
    EXPECT_EQ(removeNote(note.study, NoteId{99}), note.study);
}

TEST(NoteEdits, RemovingTakesTheNoteAndNothingElse) {
    const StudyWithNote first = with({}, 60, Beats(0), Beats(1));
    const Study both = with(first.study, 62, Beats(1), Beats(1)).study;
    EXPECT_EQ(line(removeNote(both, first.id)), "62@1+1");
}

TEST(NoteEdits, LoudnessStaysWithinItsRange) {
    const StudyWithNote note = with({}, 60, Beats(0), Beats(1));
    EXPECT_DOUBLE_EQ(setLoudness(note.study, note.id, 0.8).notes[0].loudness, 0.8);
    EXPECT_DOUBLE_EQ(setLoudness(note.study, note.id, 3).notes[0].loudness, 1.0);
    EXPECT_DOUBLE_EQ(setLoudness(note.study, note.id, -1).notes[0].loudness, 0.0);
    EXPECT_DOUBLE_EQ(setLoudness(note.study, note.id, std::nan("")).notes[0].loudness, 0.6);
}

/// No note sounds into a later onset, none is empty, none stands twice, all in order with ids of their own.
void expectALine(const Study& study) {
    for (std::size_t i = 0; i < study.notes.size(); ++i) {
        EXPECT_GT(study.notes[i].length, Beats(0));
        EXPECT_LT(study.notes[i].id.value, study.nextId);
        for (std::size_t j = i + 1; j < study.notes.size(); ++j) {
            const Note& a = study.notes[i];
            const Note& b = study.notes[j];
            EXPECT_NE(a.id, b.id);
            if (a.onset == b.onset)
                EXPECT_LT(a.pitch.midi, b.pitch.midi);
            else
                EXPECT_LE(a.end(), b.onset);
        }
    }
}

TEST(NoteEdits, AnySequenceOfEditsLeavesALineInOrder) {
    std::mt19937 random(3);
    const auto pick = [&](int below) { return static_cast<int>(random() % static_cast<unsigned>(below)); };
    Study study;
    for (int round = 0; round < 2'000; ++round) {
        const NoteId id{static_cast<std::uint64_t>(pick(static_cast<int>(study.nextId)))};
        const Beats place(pick(48), 6);
        const Beats length(1 + pick(18), 6);
        const int midi = 60 + pick(5);
        switch (pick(4)) {
        case 0:
            study = addNote(study, {Pitch{midi, {}}, place, length}).study;
            break;
        case 1:
            study = moveNote(study, id, Pitch{midi, {}}, place);
            break;
        case 2:
            study = setNoteLength(study, id, length);
            break;
        default:
            if (pick(3) == 0) study = removeNote(study, id);
        }
        expectALine(study);
    }
    EXPECT_GT(study.notes.size(), 5u);
}

} // namespace
} // namespace earwright
