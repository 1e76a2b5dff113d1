#include "core/study/NoteEdits.h"

#include "core/study/Order.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace earwright {

namespace {

bool isWritable(const Pitch& pitch) {
    return pitch.midi >= lowestMidi && pitch.midi <= highestMidi;
}

/// The spelling only if it names this very pitch.
Pitch fittingSpelling(Pitch pitch) {
    if (pitch.spelling && pitch.spelling->pitchClass() != pitchClassOf(pitch.midi)) pitch.spelling.reset();
    return pitch;
}

/// An unspoilt loudness whatever number was handed over.
double withinLoudness(double loudness) {
    return std::isnan(loudness) ? NewNote{}.loudness : std::clamp(loudness, 0.0, 1.0);
}

/// Puts a note that is not in the list into the line, making room for it and fitting it in.
void place(Study& study, Note note) {
    std::erase_if(study.notes, [&](const Note& other) {
        return other.onset == note.onset && other.pitch.midi == note.pitch.midi;
    });
    for (Note& other : study.notes) {
        if (other.onset < note.onset && other.end() > note.onset) other.length = note.onset - other.onset;
        if (other.onset > note.onset && other.onset < note.end()) note.length = other.onset - note.onset;
    }
    const auto before = [](const Note& a, const Note& b) { return comesBefore(a, b); };
    study.notes.insert(std::upper_bound(study.notes.begin(), study.notes.end(), note, before),
                       std::move(note));
}

/// Grace notes go along with the note they lead to.
void transposeGraceNotes(std::vector<int>& graceNotes, int semitones) {
    for (int& midi : graceNotes)
        midi += semitones;
    std::erase_if(graceNotes, [](int midi) { return midi < lowestMidi || midi > highestMidi; });
}

/// The study with one note changed and fitted into the line again.
Study replaced(const Study& study, const Note& changed) {
    Study edited = study;
    std::erase_if(edited.notes, [&](const Note& note) { return note.id == changed.id; });
    place(edited, changed);
    return edited;
}

} // namespace

StudyWithNote addNote(const Study& study, const NewNote& note) {
    assert(isWritable(note.pitch) && note.length > Beats(0));
    StudyWithNote edited{study, NoteId{study.nextId}};
    ++edited.study.nextId;
    place(edited.study, {edited.id, note.onset, note.length, fittingSpelling(note.pitch),
                         withinLoudness(note.loudness), note.phrasing});
    return edited;
}

Study moveNote(const Study& study, NoteId id, const Pitch& pitch, const Beats& onset) {
    const Note* note = study.note(id);
    if (!note || !isWritable(pitch)) return study;
    Note moved = *note;
    transposeGraceNotes(moved.phrasing.graceNotes, pitch.midi - note->pitch.midi);
    moved.pitch = fittingSpelling(pitch);
    moved.onset = onset;
    return replaced(study, moved);
}

Study setNoteLength(const Study& study, NoteId id, const Beats& length) {
    const Note* note = study.note(id);
    if (!note || length <= Beats(0)) return study;
    Note changed = *note;
    changed.length = length;
    return replaced(study, changed);
}

Study removeNote(const Study& study, NoteId id) {
    Study edited = study;
    std::erase_if(edited.notes, [&](const Note& note) { return note.id == id; });
    return edited;
}

Study setLoudness(const Study& study, NoteId id, double loudness) {
    Study edited = study;
    for (Note& note : edited.notes)
        if (note.id == id) note.loudness = withinLoudness(loudness);
    return edited;
}

} // namespace earwright
