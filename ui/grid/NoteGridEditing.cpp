// What the keys of the note grid do to notes; the rest of the view is in NoteGrid.cpp.
#include "ui/grid/NoteGrid.h"
#include "ui/grid/PhrasingBar.h"
#include "ui/grid/PitchEntry.h"

#include <algorithm>

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
    if (scene.selected) apply(removed(*study, scene.selectedNotes()));
}

void NoteGrid::changeLength(int columns) {
    if (scene.selected) apply(lengthened(*study, *scene.selected, columns));
}

void NoteGrid::moveNote(int columns, int semitones) {
    if (!scene.selected) return;
    if (scene.alsoSelected.empty() || columns != 0)
        return apply(moved(*study, scene.columns, *scene.selected, columns, semitones));
    const std::vector<NoteId> chosen = scene.selectedNotes();
    auto edit = transposed(*study, chosen, semitones);
    if (!edit) return;
    // The cursor goes along with its note, and the others stay chosen.
    const Note* note = edit->study.note(*scene.selected);
    if (note) scene.cursor.midi = note->pitch.midi;
    apply(std::move(edit));
}

bool NoteGrid::enterPitch(int midi) {
    enteredNote.reset();
    if (!hasColumns()) return false;
    const PitchEntry entry = entered(*study, scene.columns, scene.cursor, midi);
    if (entry.study != *study) emit edited(entry.study, tr("enter note"));
    enteredNote = entry.note;
    if (entry.next) setCursor(*entry.next);
    return entry.next.has_value();
}

void NoteGrid::enterPitchBeside(int midi) {
    if (!hasColumns() || !enteredNote) return;
    const Study beside = enteredBeside(*study, *enteredNote, midi);
    if (beside != *study) emit edited(beside, tr("enter note"));
}

void NoteGrid::spreadNotes() {
    if (scene.selected) apply(spread(*study, scene.selectedNotes()));
}

void NoteGrid::respellNotes() {
    if (scene.selected) apply(respelled(*study, scene.names, scene.selectedNotes()));
}

void NoteGrid::togglePhrasing(PhrasingKind kind) {
    if (!scene.selected) return;
    inHand = kind;
    apply(phrased(*study, scene.selectedNotes(), kind));
}

void NoteGrid::stepMark(int by) {
    if (const auto kind = markInHand()) apply(revalued(*study, scene.selectedNotes(), *kind, by));
}

void NoteGrid::addGrace() {
    if (!scene.selected) return;
    inHand = PhrasingKind::Grace;
    apply(graced(*study, scene.selectedNotes()));
}

std::optional<PhrasingKind> NoteGrid::markInHand() const {
    const Note* note = scene.selected ? scene.study->note(*scene.selected) : nullptr;
    if (!note) return std::nullopt;
    if (inHand && hasValue(*inHand) && carries(note->phrasing, *inHand)) return inHand;
    for (const PhrasingKind kind : allPhrasingKinds)
        if (hasValue(kind) && carries(note->phrasing, kind)) return kind;
    return std::nullopt;
}

void NoteGrid::openMarks() {
    const Note* note = scene.selected ? scene.study->note(*scene.selected) : nullptr;
    if (!note) return;
    isPhrasingOffered = true;
    placePhrasingBar();
    // Where there is no room for the bar, its menu still speaks of this note.
    if (phrasingBar->isHidden())
        phrasingBar->prepare(*note, markInHand(), static_cast<int>(geometry.cells().width()));
    phrasingBar->openMenu();
}

void NoteGrid::changeLoudness(int steps) {
    if (scene.selected) apply(louder(*study, scene.selectedNotes(), steps * loudnessStep));
}

// Several notes ------------------------------------------------------------------------------------------

void NoteGrid::choose(std::set<NoteId> notes, NoteId atCursor) {
    const Note* note = scene.study->note(atCursor);
    if (!note) return;
    notes.erase(atCursor);
    putCursor({note->onset, note->pitch.midi}, std::move(notes), selectionAnchor);
}

/// What is selected is what the next key changes: never a note that is not shown.
void NoteGrid::keepSelectionInSight() {
    const Range<Beats> bars = scene.columns.range();
    const auto isOutOfSight = [&](NoteId id) {
        const Note* note = study ? study->note(id) : nullptr;
        return !note || !note->range().overlaps(bars);
    };
    std::erase_if(scene.alsoSelected, isOutOfSight);
    if (selectionAnchor && isOutOfSight(*selectionAnchor)) selectionAnchor.reset();
}

void NoteGrid::chooseUpTo(NoteId far) {
    const std::vector<Note>& line = scene.study->notes;
    const auto at = [&](NoteId id) {
        return std::find_if(line.begin(), line.end(), [&](const Note& note) { return note.id == id; });
    };
    if (!selectionAnchor) selectionAnchor = scene.selected;
    auto first = at(selectionAnchor.value_or(far));
    auto last = at(far);
    if (first == line.end() || last == line.end()) return;
    if (last < first) std::swap(first, last);
    std::set<NoteId> notes;
    for (auto note = first; note <= last; ++note)
        notes.insert(note->id);
    choose(std::move(notes), far);
}

void NoteGrid::extendSelection(int notes) {
    if (!scene.selected) return;
    const std::vector<Note> line = scene.study->notesIn(scene.columns.range());
    const auto here =
        std::find_if(line.begin(), line.end(), [&](const Note& note) { return note.id == *scene.selected; });
    const auto place = here - line.begin() + notes;
    if (here == line.end() || place < 0 || place >= static_cast<std::ptrdiff_t>(line.size())) return;
    chooseUpTo(line[static_cast<std::size_t>(place)].id);
}

void NoteGrid::selectAll() {
    if (!hasColumns()) return;
    const std::vector<Note> seen = scene.study->notesIn(scene.columns.range());
    if (seen.empty()) return;
    std::set<NoteId> notes;
    for (const Note& note : seen)
        notes.insert(note.id);
    const bool stays = scene.selected && notes.contains(*scene.selected);
    choose(std::move(notes), stays ? *scene.selected : seen.front().id);
}

bool NoteGrid::dropSelection() {
    if (scene.alsoSelected.empty()) return false;
    scene.alsoSelected.clear();
    selectionAnchor.reset();
    describe();
    viewport()->update();
    announceSelection();
    return true;
}

void NoteGrid::chooseOneMore(NoteId id) {
    std::vector<NoteId> others = scene.selectedNotes();
    const bool wasChosen = std::erase(others, id) > 0;
    if (wasChosen && others.empty()) return;
    choose({others.begin(), others.end()}, wasChosen ? others.back() : id);
}

void NoteGrid::setDivision(int parts) {
    if (hasColumns()) divideBeat(study->meters().countStart(scene.cursor.place), parts);
}

void NoteGrid::divideBeat(const Beats& beat, int parts) {
    if (hasColumns()) apply(divided(*study, beat, parts));
}

} // namespace earwright::ui
