#include "ui/grid/PitchEntry.h"

#include "core/study/NoteEdits.h"
#include "ui/grid/GridEdits.h"

#include <algorithm>

namespace earwright::ui {

namespace {

const Note* noteAt(const Study& study, const GridColumn& column, int midi) {
    if (const Note* there = noteInCell(study, column, midi)) return there;
    const auto begun = std::find_if(study.notes.begin(), study.notes.end(),
                                    [&](const Note& note) { return column.range.contains(note.onset); });
    return begun == study.notes.end() ? nullptr : &*begun;
}

/// On the note that begins there, if one does.
std::optional<GridCursor> cursorAt(const Study& study, const GridColumns& columns, const Beats& place,
                                   int midi) {
    if (!columns.range().contains(place)) return std::nullopt;
    const std::vector<Note> begun = study.notesIn({place, place + Beats(1, 960)});
    return GridCursor{place, begun.empty() ? midi : begun.front().pitch.midi};
}

} // namespace

PitchEntry entered(const Study& study, const GridColumns& columns, const GridCursor& cursor, int midi) {
    const GridColumn& column = columns[columns.indexAt(cursor.place)];
    const Note* there = noteAt(study, column, cursor.midi);
    if (!there) {
        NewNote note;
        note.pitch.midi = midi;
        note.onset = column.range.begin;
        note.length = column.range.length();
        StudyWithNote written = addNote(study, note);
        const auto next = cursorAt(written.study, columns, column.range.end, midi);
        return {std::move(written.study), written.id, next};
    }
    PitchEntry entry{moveNote(study, there->id, {midi, {}}, there->onset), there->id, std::nullopt};
    const auto after = std::find_if(study.notes.begin(), study.notes.end(),
                                    [&](const Note& note) { return there->onset < note.onset; });
    const Beats place = after == study.notes.end() ? there->end() : after->onset;
    entry.next = cursorAt(entry.study, columns, place, midi);
    return entry;
}

Study enteredBeside(const Study& study, NoteId id, int midi) {
    const Note* note = study.note(id);
    if (!note) return study;
    const bool isThere = std::any_of(study.notes.begin(), study.notes.end(), [&](const Note& other) {
        return other.onset == note->onset && other.pitch.midi == midi;
    });
    if (isThere) return study;
    NewNote beside;
    beside.pitch.midi = midi;
    beside.onset = note->onset;
    beside.length = note->length;
    beside.loudness = note->loudness;
    return addNote(study, beside).study;
}

} // namespace earwright::ui
