#include "ui/grid/GridEdits.h"

#include "core/study/DivisionEdits.h"
#include "core/study/NoteEdits.h"
#include "core/study/PhrasingEdits.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

QString named(const char* text) {
    return QCoreApplication::translate("GridEdits", text);
}

/// The edit, unless it changed nothing.
std::optional<GridEdit> unlessTheSame(const Study& before, GridEdit edit) {
    if (edit.study == before) return std::nullopt;
    return edit;
}

Study phrasedStudy(const Study& study, NoteId id, PhrasingKind kind) {
    switch (kind) {
    case PhrasingKind::Slide:
        return stepSlide(study, id);
    case PhrasingKind::Grace:
        return stepGrace(study, id);
    case PhrasingKind::Trill:
        return stepTrill(study, id);
    case PhrasingKind::Slur:
        return toggleSlur(study, id);
    case PhrasingKind::Ghost:
        return toggleGhost(study, id);
    case PhrasingKind::Accent:
        return toggleAccent(study, id);
    }
    return study;
}

const char* nameOf(PhrasingKind kind) {
    switch (kind) {
    case PhrasingKind::Slide:
        return QT_TRANSLATE_NOOP("GridEdits", "slide");
    case PhrasingKind::Grace:
        return QT_TRANSLATE_NOOP("GridEdits", "grace note");
    case PhrasingKind::Trill:
        return QT_TRANSLATE_NOOP("GridEdits", "trill");
    case PhrasingKind::Slur:
        return QT_TRANSLATE_NOOP("GridEdits", "slur");
    case PhrasingKind::Ghost:
        return QT_TRANSLATE_NOOP("GridEdits", "ghost note");
    case PhrasingKind::Accent:
        return QT_TRANSLATE_NOOP("GridEdits", "accent");
    }
    return "";
}

} // namespace

const Note* noteInCell(const Study& study, const GridColumn& column, int midi) {
    const auto found = std::find_if(study.notes.begin(), study.notes.end(), [&](const Note& note) {
        return note.pitch.midi == midi && note.range().overlaps(column.range);
    });
    return found == study.notes.end() ? nullptr : &*found;
}

std::optional<GridEdit> noteInOrOut(const Study& study, const GridColumns& columns,
                                    const GridCursor& cursor) {
    const GridColumn& column = columns[columns.indexAt(cursor.place)];
    if (const Note* there = noteInCell(study, column, cursor.midi)) return removed(study, there->id);
    NewNote note;
    note.pitch.midi = cursor.midi;
    note.onset = column.range.begin;
    note.length = column.range.length();
    StudyWithNote written = addNote(study, note);
    return GridEdit{std::move(written.study), named(QT_TRANSLATE_NOOP("GridEdits", "write note")), written.id,
                    cursor, true};
}

std::optional<GridEdit> removed(const Study& study, NoteId id) {
    return unlessTheSame(
        study,
        {removeNote(study, id), named(QT_TRANSLATE_NOOP("GridEdits", "take out note")), {}, {}, false});
}

std::optional<GridEdit> lengthened(const Study& study, const GridColumns& columns, NoteId id, int steps) {
    const Note* note = study.note(id);
    if (!note) return std::nullopt;
    const Beats shortest = columns.lineFrom(note->onset, 1);
    const Beats end = std::max(columns.lineFrom(note->end(), steps), shortest);
    return unlessTheSame(study, {setNoteLength(study, id, end - note->onset),
                                 named(QT_TRANSLATE_NOOP("GridEdits", "change length")),
                                 id,
                                 {},
                                 false});
}

std::optional<GridEdit> moved(const Study& study, const GridColumns& columns, NoteId id, int steps,
                              int semitones) {
    const Note* note = study.note(id);
    if (!note) return std::nullopt;
    const Beats onset = steps == 0 ? note->onset : columns.lineFrom(note->onset, steps);
    if (!columns.range().contains(onset)) return std::nullopt;
    Pitch pitch = note->pitch;
    pitch.midi += semitones;
    const bool otherPitch = semitones != 0;
    return unlessTheSame(study, {moveNote(study, id, pitch, onset),
                                 named(QT_TRANSLATE_NOOP("GridEdits", "move note")), id,
                                 GridCursor{onset, pitch.midi}, otherPitch});
}

std::optional<GridEdit> phrased(const Study& study, NoteId id, PhrasingKind kind) {
    return unlessTheSame(study, {phrasedStudy(study, id, kind), named(nameOf(kind)), id, {}, true});
}

std::optional<GridEdit> louder(const Study& study, NoteId id, double by) {
    const Note* note = study.note(id);
    if (!note) return std::nullopt;
    // In hundredths, so that steps up and down again end where they began and read well in the file.
    const double loudness = std::round((note->loudness + by) * 100) / 100;
    return unlessTheSame(study, {setLoudness(study, id, loudness),
                                 named(QT_TRANSLATE_NOOP("GridEdits", "change loudness")),
                                 id,
                                 {},
                                 true});
}

std::optional<GridEdit> divided(const Study& study, std::int64_t beat, int parts) {
    for (const BeatDivision division :
         {BeatDivision::Two, BeatDivision::Three, BeatDivision::Four, BeatDivision::Six})
        if (static_cast<int>(division) == parts)
            return unlessTheSame(study, {setDivision(study, beat, division),
                                         named(QT_TRANSLATE_NOOP("GridEdits", "divide beat")),
                                         {},
                                         {},
                                         false});
    return std::nullopt;
}

} // namespace earwright::ui
