// What the keys of the note grid do to notes; the rest of the view is in NoteGrid.cpp.
#include "ui/grid/NoteGrid.h"

namespace earwright::ui {

namespace {

constexpr double loudnessStep = 0.1;

} // namespace

void NoteGrid::apply(std::optional<GridEdit> edit) {
    if (!edit) return;
    emit edited(edit->study, edit->name);
    if (edit->cursor && hasColumns() && scene.columns.range().contains(edit->cursor->place))
        setCursor(*edit->cursor);
    if (edit->audible && edit->note) sound(edit->study, *edit->note);
}

void NoteGrid::sound(const Study& in, NoteId id) {
    if (const Note* note = in.note(id)) emit audition(note->pitch.midi, note->soundingLoudness());
}

void NoteGrid::noteInOrOut() {
    if (hasColumns()) apply(ui::noteInOrOut(*study, scene.columns, scene.cursor));
}

void NoteGrid::removeNote() {
    if (scene.selected) apply(removed(*study, *scene.selected));
}

void NoteGrid::changeLength(int columns) {
    if (scene.selected) apply(lengthened(*study, scene.columns, *scene.selected, columns));
}

void NoteGrid::moveNote(int columns, int semitones) {
    if (scene.selected) apply(moved(*study, scene.columns, *scene.selected, columns, semitones));
}

void NoteGrid::togglePhrasing(PhrasingKind kind) {
    if (scene.selected) apply(phrased(*study, *scene.selected, kind));
}

void NoteGrid::changeLoudness(int steps) {
    if (scene.selected) apply(louder(*study, *scene.selected, steps * loudnessStep));
}

void NoteGrid::setDivision(int parts) {
    if (hasColumns()) divideBeat(scene.cursor.place.floor(), parts);
}

void NoteGrid::divideBeat(std::int64_t beat, int parts) {
    if (hasColumns()) apply(divided(*study, beat, parts));
}

} // namespace earwright::ui
