#include "ui/grid/NoteTool.h"

#include <QCoreApplication>

#include <algorithm>

namespace earwright::ui {

namespace {

QString nameOf(Grip grip) {
    const char* const name = grip == Grip::EmptyCell ? QT_TRANSLATE_NOOP("GridEdits", "write note")
                             : grip == Grip::TailEnd ? QT_TRANSLATE_NOOP("GridEdits", "change length")
                                                     : QT_TRANSLATE_NOOP("GridEdits", "move note");
    return QCoreApplication::translate("GridEdits", name);
}

} // namespace

const Note* NoteTool::noteAt(const Study& study, const GridGeometry& geometry, QPointF at) {
    const auto first = [&](auto place) {
        const auto found = std::find_if(study.notes.begin(), study.notes.end(),
                                        [&](const Note& note) { return place(note).contains(at); });
        return found == study.notes.end() ? nullptr : &*found;
    };
    // A head wins over the tail that ends beside it.
    if (const Note* note = first([&](const Note& each) { return geometry.headArea(each); })) return note;
    return first([&](const Note& each) { return geometry.outline(each); });
}

Grip NoteTool::gripAt(const Study& study, const GridColumns& columns, const GridGeometry& geometry,
                      QPointF at) {
    if (columns.isEmpty() || !geometry.cells().contains(at)) return Grip::Nothing;
    if (const Note* note = noteAt(study, geometry, at)) {
        const bool byTail = !geometry.headArea(*note).contains(at) && geometry.tailHandle(*note).contains(at);
        return byTail ? Grip::TailEnd : Grip::Note;
    }
    const double beats = geometry.beatsAt(at.x());
    const bool inside = beats >= columns.range().begin.toDouble() && beats < columns.range().end.toDouble();
    return inside && geometry.midiAt(at.y()) ? Grip::EmptyCell : Grip::Nothing;
}

void NoteTool::press(std::shared_ptr<const Study> study, const GridColumns& shown, const GridGeometry& layout,
                     QPointF at) {
    grip = gripAt(*study, shown, layout, at);
    if (grip == Grip::Nothing) return;
    before = base = drafted = std::move(study);
    columns = shown;
    geometry = layout;
    if (grip == Grip::EmptyCell) {
        const GridColumn& column = columns[columns.indexAt(geometry.beatsAt(at.x()))];
        const int midi = *geometry.midiAt(at.y());
        return writeHeld({.pitch = {midi, {}}, .onset = column.range.begin, .length = column.range.length()});
    }
    const Note* note = noteAt(*before, geometry, at);
    held = note->id;
    toHead = geometry.head(*note) - at;
}

void NoteTool::writeHeld(const NewNote& note) {
    StudyWithNote written = addNote(*before, note);
    held = written.id;
    show(std::move(written.study));
    base = drafted;
}

bool NoteTool::goOn(std::shared_ptr<const Study> now) {
    const bool isSameLine = now->notes == before->notes && now->divisions == before->divisions &&
                            now->beatMap == before->beatMap && now->meter == before->meter &&
                            now->page == before->page && now->spans == before->spans;
    if (!isSameLine) return false;
    const Note* note = base->note(held);
    const NewNote same{.pitch = note->pitch, .onset = note->onset, .length = note->length};
    before = base = drafted = std::move(now);
    if (grip == Grip::EmptyCell) writeHeld(same);
    if (draggedTo) drag(*draggedTo);
    return true;
}

void NoteTool::drag(QPointF at) {
    draggedTo = at;
    switch (grip) {
    case Grip::Nothing:
        return;
    case Grip::EmptyCell:
    case Grip::TailEnd:
        return dragLength(at.x());
    case Grip::Note:
        return dragNote(at);
    }
}

void NoteTool::dragLength(double x) {
    const Note* note = base->note(held);
    const GridColumn& under = columns[columns.indexAt(geometry.beatsAt(x))];
    const Beats shortest = columns.lineFrom(note->onset, 1);
    // The end goes to the nearer line of the column under the pointer.
    const double middle = (under.range.begin.toDouble() + under.range.end.toDouble()) / 2;
    const bool past = grip == Grip::EmptyCell || geometry.beatsAt(x) >= middle;
    const Beats end = std::max(past ? under.range.end : under.range.begin, shortest);
    show(setNoteLength(*base, held, end - note->onset));
}

void NoteTool::dragNote(QPointF at) {
    const Note* note = base->note(held);
    const QPointF head = at + toHead;
    const std::size_t from = columns.indexAt(note->onset);
    const std::size_t to = columns.indexAt(geometry.beatsAt(head.x()));
    const Beats onset = from == to ? note->onset : columns[to].range.begin;
    const QRectF cells = geometry.cells();
    const double y = std::clamp(head.y(), cells.top() + 1, cells.bottom() - 1);
    show(moveNote(*base, held, {geometry.midiAt(y).value_or(note->pitch.midi), note->pitch.spelling}, onset));
}

void NoteTool::show(Study study) {
    drafted = std::make_shared<const Study>(std::move(study));
}

std::optional<GridEdit> NoteTool::release() {
    if (!isActive()) return std::nullopt;
    const Note* note = drafted->note(held);
    GridEdit edit{*drafted, nameOf(grip), held, GridCursor{note->onset, note->pitch.midi}, false};
    const bool changed = *drafted != *before;
    cancel();
    if (!changed) return std::nullopt;
    return edit;
}

void NoteTool::cancel() {
    grip = Grip::Nothing;
    before = base = drafted = nullptr;
    draggedTo.reset();
}

} // namespace earwright::ui
