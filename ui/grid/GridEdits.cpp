#include "ui/grid/GridEdits.h"

#include "core/study/DivisionEdits.h"
#include "core/study/NoteEdits.h"
#include "core/study/PhrasingEdits.h"
#include "core/study/SpellingEdits.h"
#include "core/study/SpreadEdits.h"
#include "core/time/BeatRatio.h"
#include "ui/grid/MarkWords.h"

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

/// The line `steps` away from a place, each beat divided as it is; between two lines counts as one step from
/// each.
Beats lineFrom(const Study& study, Beats place, int steps) {
    const MeterMap meters = study.meters();
    const auto columnAt = [&](const Beats& beat) {
        return (meters.nextCount(beat) - beat) / static_cast<std::int64_t>(study.divisionOf(beat));
    };
    for (; steps > 0; --steps) {
        const Beats beat = meters.countStart(place);
        const Beats column = columnAt(beat);
        place = beat + column * (ratio(place - beat, column).floor() + 1);
    }
    for (; steps < 0; ++steps) {
        // From a beat's own line into the beat before it.
        const bool isOnBeat = meters.countStart(place) == place;
        const Beats beat = meters.countStart(isOnBeat ? place - Beats(1, 1000) : place);
        const Beats column = columnAt(beat);
        const Beats columns = ratio(place - beat, column);
        const bool isOnLine = columns == Beats(columns.floor());
        place = beat + column * (columns.floor() - (isOnLine ? 1 : 0));
    }
    return place;
}

std::optional<NoteId> onlyOf(const std::vector<NoteId>& notes) {
    return notes.empty() ? std::nullopt : std::optional(notes.front());
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
    if (const Note* there = noteInCell(study, column, cursor.midi)) return removed(study, {there->id});
    NewNote note;
    note.pitch.midi = cursor.midi;
    note.onset = column.range.begin;
    note.length = column.range.length();
    StudyWithNote written = addNote(study, note);
    return GridEdit{std::move(written.study), named(QT_TRANSLATE_NOOP("GridEdits", "write note")), written.id,
                    cursor, true};
}

std::optional<GridEdit> removed(const Study& study, const std::vector<NoteId>& notes) {
    Study edited = study;
    for (const NoteId id : notes)
        edited = removeNote(edited, id);
    return unlessTheSame(
        study, {std::move(edited), named(QT_TRANSLATE_NOOP("GridEdits", "take out note")), {}, {}, false});
}

std::optional<GridEdit> lengthened(const Study& study, NoteId id, int steps) {
    const Note* note = study.note(id);
    if (!note) return std::nullopt;
    const Beats shortest = lineFrom(study, note->onset, 1);
    const Beats end = std::max(lineFrom(study, note->end(), steps), shortest);
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
    const Beats onset = lineFrom(study, note->onset, steps);
    // A note that began before the page may go up and down where it is, and come nearer.
    const Range<Beats> bars = columns.range();
    if (onset >= bars.end || (steps < 0 && onset < bars.begin)) return std::nullopt;
    Pitch pitch = note->pitch;
    pitch.midi += semitones;
    const bool otherPitch = semitones != 0;
    return unlessTheSame(study, {moveNote(study, id, pitch, onset),
                                 named(QT_TRANSLATE_NOOP("GridEdits", "move note")), id,
                                 GridCursor{onset, pitch.midi}, otherPitch});
}

std::optional<GridEdit> transposed(const Study& study, const std::vector<NoteId>& notes, int semitones) {
    std::vector<Note> line;
    for (const NoteId id : notes)
        if (const Note* note = study.note(id)) line.push_back(*note);
    // Those ahead go first, so that no note takes the place of one that has yet to move.
    std::sort(line.begin(), line.end(), [&](const Note& a, const Note& b) {
        return semitones > 0 ? a.pitch.midi > b.pitch.midi : a.pitch.midi < b.pitch.midi;
    });
    Study edited = study;
    for (const Note& note : line) {
        const int midi = note.pitch.midi + semitones;
        if (midi < lowestMidi || midi > highestMidi) return std::nullopt;
        edited = moveNote(edited, note.id, {midi, note.pitch.spelling}, note.onset);
    }
    return unlessTheSame(
        study,
        {std::move(edited), named(QT_TRANSLATE_NOOP("GridEdits", "move notes")), onlyOf(notes), {}, true});
}

std::optional<GridEdit> phrased(const Study& study, const std::vector<NoteId>& notes, PhrasingKind kind) {
    return unlessTheSame(study, {stepMark(study, notes, kind), markName(kind), onlyOf(notes), {}, true});
}

std::optional<GridEdit> revalued(const Study& study, const std::vector<NoteId>& notes, PhrasingKind kind,
                                 int by) {
    return unlessTheSame(study, {stepValue(study, notes, kind, by), markName(kind), onlyOf(notes), {}, true});
}

std::optional<GridEdit> graced(const Study& study, const std::vector<NoteId>& notes) {
    return unlessTheSame(
        study, {addGraceNote(study, notes), markName(PhrasingKind::Grace), onlyOf(notes), {}, true});
}

std::optional<GridEdit> spread(const Study& study, const std::vector<NoteId>& notes) {
    return unlessTheSame(study, {spreadEvenly(study, notes),
                                 named(QT_TRANSLATE_NOOP("GridEdits", "spread evenly")),
                                 onlyOf(notes),
                                 {},
                                 false});
}

std::optional<GridEdit> respelled(const Study& study, const WrittenNames& names,
                                  const std::vector<NoteId>& notes) {
    Study edited = study;
    for (const NoteId id : notes)
        if (const Note* note = study.note(id)) edited = respell(edited, id, names.byItself(*note));
    return unlessTheSame(
        study,
        {std::move(edited), named(QT_TRANSLATE_NOOP("GridEdits", "respell")), onlyOf(notes), {}, false});
}

std::optional<GridEdit> louder(const Study& study, const std::vector<NoteId>& notes, double by) {
    Study edited = study;
    for (const NoteId id : notes) {
        const Note* note = study.note(id);
        // In hundredths, so that steps up and down again end where they began and read well in the file.
        if (note) edited = setLoudness(edited, id, std::round((note->loudness + by) * 100) / 100);
    }
    return unlessTheSame(study, {std::move(edited),
                                 named(QT_TRANSLATE_NOOP("GridEdits", "change loudness")),
                                 onlyOf(notes),
                                 {},
                                 true});
}

std::optional<GridEdit> divided(const Study& study, const Beats& beat, int parts) {
    const auto division = divisionInto(parts);
    if (!division) return std::nullopt;
    return unlessTheSame(study, {setDivision(study, beat, *division),
                                 named(QT_TRANSLATE_NOOP("GridEdits", "divide beat")),
                                 {},
                                 {},
                                 false});
}

} // namespace earwright::ui
