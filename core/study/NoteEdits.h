// Writing notes: adding, moving, lengthening and removing them, each edit giving a new study.
#pragma once

#include "core/study/Study.h"

namespace earwright {

// What all note edits share
// - The line sounds one place at a time: no note sounds into a later onset. The earlier of two that would
//   overlap is shortened to where the later one begins, whichever of them was edited.
// - Two pitches with the same onset are a double stop and stay; the same pitch again replaces the old note.
// - An id that is not there, or a pitch or length outside its range, changes nothing.

/// What is known of a note before it is written. Units and ranges as in Note.
struct NewNote {
    Pitch pitch;
    Beats onset;
    Beats length{1, 2};
    double loudness = 0.6;
    Phrasing phrasing{};
};

/// A study with a note just written in it.
struct StudyWithNote {
    Study study;
    NoteId id;
};

/// Requires: lowestMidi <= pitch.midi <= highestMidi, length > 0. Loudness is kept within 0 to 1.
StudyWithNote addNote(const Study& study, const NewNote& note);

/// The note at another pitch and place. Its grace notes move along; a spelling that does
/// not fit the pitch is dropped.
Study moveNote(const Study& study, NoteId id, const Pitch& pitch, const Beats& onset);

/// The note lasting longer or shorter; at most until the next onset of the line.
Study setNoteLength(const Study& study, NoteId id, const Beats& length);

Study removeNote(const Study& study, NoteId id);

/// Loudness before ghost and accent, kept within 0 to 1.
Study setLoudness(const Study& study, NoteId id, double loudness);

} // namespace earwright
