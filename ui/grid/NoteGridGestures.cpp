// The pointer and the keys of the note grid; the rest of the view is in NoteGrid.cpp.
#include "ui/grid/MarkWords.h"
#include "ui/grid/NoteGrid.h"

#include <QHelpEvent>
#include <QKeyEvent>
#include <QMenu>
#include <QMouseEvent>
#include <QScrollBar>
#include <QToolTip>

namespace earwright::ui {

namespace {

constexpr int octave = 12;

/// Keys that are the grid's own while it has the focus, even where the desk uses them elsewhere.
bool isCursorKey(const QKeyEvent& event) {
    const bool plain = event.modifiers() == Qt::NoModifier || event.modifiers() == Qt::KeypadModifier;
    const bool octaves = event.modifiers() == Qt::ControlModifier;
    switch (event.key()) {
    case Qt::Key_Up:
    case Qt::Key_Down:
        return plain || octaves;
    case Qt::Key_Left:
    case Qt::Key_Right:
    case Qt::Key_PageUp:
    case Qt::Key_PageDown:
    case Qt::Key_Home:
    case Qt::Key_End:
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        return plain;
    default:
        return false;
    }
}

} // namespace

// The pointer
// ------------------------------------------------------------------------------------------------

void NoteGrid::mousePressEvent(QMouseEvent* event) {
    if (!hasColumns() || tool.isActive()) return;
    const QPointF at = event->position();
    if (event->button() == Qt::RightButton) {
        const Note* note = NoteTool::noteAt(*study, geometry, at);
        if (note && geometry.cells().contains(at)) apply(removed(*study, {note->id}));
        return;
    }
    if (event->button() != Qt::LeftButton) return;
    if (at.y() < geometry.cells().top()) return pressAboveCells(at);
    if (geometry.markLane().contains(at)) {
        const GridColumn column = scene.columns[scene.columns.indexAt(geometry.beatsAt(at.x()))];
        if (!isSelectedNoteIn(column.range)) goTo(column.range.begin);
        return offerPageMarks(column.range, event->globalPosition().toPoint());
    }
    const Note* under = NoteTool::noteAt(*study, geometry, at);
    if (under && event->modifiers() & Qt::ShiftModifier) return chooseUpTo(under->id);
    if (under && event->modifiers() & Qt::ControlModifier) return chooseOneMore(under->id);
    tool.press(study, scene.columns, geometry, at);
    if (!tool.isActive()) return;
    // What was chosen before must not be changed along with the note that is taken now.
    scene.alsoSelected.clear();
    selectionAnchor.reset();
    showDraft();
}

void NoteGrid::mouseDoubleClickEvent(QMouseEvent* event) {
    mousePressEvent(event);
}

void NoteGrid::pressAboveCells(QPointF at) {
    const double beats = geometry.beatsAt(at.x());
    const Range<Beats> bars = scene.columns.range();
    if (at.x() < geometry.cells().left() || beats < bars.begin.toDouble() || beats >= bars.end.toDouble())
        return;
    if (geometry.rulerLane().contains(at)) {
        const Beats beat = scene.columns[scene.columns.indexAt(beats)].beat;
        offerDivisions(beat, viewport()->mapToGlobal(geometry.beatOnRuler(beat).bottomLeft().toPoint()));
    } else {
        emit placeChosen(study->beatMap.secondsAt(beats));
    }
}

void NoteGrid::offerDivisions(const Beats& beat, QPoint at) {
    // Not by note values: what three parts are depends on the meter.
    const QString choices[] = {tr("1  undivided"), tr("2  in two"),     tr("3  in three"),
                               tr("4  in four"),   tr("5  in five"),    tr("6  in six"),
                               tr("7  in seven"),  tr("8  in eight"),   tr("9  in nine"),
                               tr("10  in ten"),   tr("11  in eleven"), tr("12  in twelve")};
    auto* menu = new QMenu(this);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    int parts = 0;
    for (const QString& text : choices) {
        ++parts;
        QAction* action = menu->addAction(text);
        action->setCheckable(true);
        action->setChecked(static_cast<int>(study->divisionOf(beat)) == parts);
        connect(action, &QAction::triggered, this, [this, beat, parts] { divideBeat(beat, parts); });
    }
    menu->popup(at);
}

void NoteGrid::showDraft() {
    scene.show(tool.draft());
    const Note* note = scene.study->note(tool.note());
    const int heardBefore = scene.cursor.midi;
    const bool isNew = scene.selected != tool.note();
    scene.cursor = {note->onset, note->pitch.midi};
    updateSelection();
    viewport()->update();
    if (isNew || note->pitch.midi != heardBefore) sound(*scene.study, tool.note());
}

void NoteGrid::mouseMoveEvent(QMouseEvent* event) {
    if (!hasColumns()) return;
    if (!tool.isActive()) return updatePointer(event->position());
    scrollTowards(event->position());
    tool.drag(event->position());
    showDraft();
}

void NoteGrid::mouseReleaseEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton || !tool.isActive()) return;
    tool.drag(event->position());
    showDraft();
    const GridCursor cursor = scene.cursor;
    std::optional<GridEdit> edit = tool.release();
    scene.show(study);
    apply(std::move(edit));
    setCursor(cursor);
}

void NoteGrid::cancelGesture() {
    tool.cancel();
    scene.show(study);
    updateSelection();
    viewport()->update();
}

/// A row or a beat on where a gesture leads out of the cells.
void NoteGrid::scrollTowards(QPointF at) {
    const QRectF cells = geometry.cells();
    QScrollBar* const rows = verticalScrollBar();
    QScrollBar* const beats = horizontalScrollBar();
    if (at.y() < cells.top()) rows->setValue(rows->value() - rows->singleStep());
    if (at.y() > cells.bottom()) rows->setValue(rows->value() + rows->singleStep());
    if (at.x() < cells.left()) beats->setValue(beats->value() - beats->singleStep());
    if (at.x() > cells.right()) beats->setValue(beats->value() + beats->singleStep());
}

bool NoteGrid::viewportEvent(QEvent* event) {
    if (event->type() != QEvent::ToolTip) return QAbstractScrollArea::viewportEvent(event);
    const auto* help = static_cast<QHelpEvent*>(event);
    QToolTip::showText(help->globalPos(), tipAt(help->pos()), viewport());
    return true;
}

QString NoteGrid::tipAt(QPointF at) const {
    if (!hasColumns()) return {};
    if (geometry.rulerLane().contains(at)) return tr("How this beat is divided: click to choose 1 to 12");
    if (geometry.chordLane().contains(at)) return tr("Click to hear from here");
    if (geometry.markLane().contains(at)) return tr("Dynamics, hairpins and words: click to set them here");
    const Note* note = NoteTool::noteAt(*study, geometry, at);
    return note && geometry.cells().contains(at) ? marksText(*note) : QString();
}

void NoteGrid::updatePointer(QPointF at) {
    Qt::CursorShape shape = Qt::ArrowCursor;
    switch (NoteTool::gripAt(*study, scene.columns, geometry, at)) {
    case Grip::Note:
        shape = Qt::OpenHandCursor;
        break;
    case Grip::TailEnd:
        shape = Qt::SizeHorCursor;
        break;
    case Grip::EmptyCell:
        shape = Qt::CrossCursor;
        break;
    case Grip::Nothing:
        if (at.y() < geometry.cells().top() && at.x() > geometry.cells().left())
            shape = Qt::PointingHandCursor;
        break;
    }
    if (viewport()->cursor().shape() != shape) viewport()->setCursor(shape);
}

// The keys
// ---------------------------------------------------------------------------------------------------

bool NoteGrid::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride && hasColumns()) {
        const auto& key = *static_cast<QKeyEvent*>(event);
        if (isCursorKey(key) || (tool.isActive() && key.key() == Qt::Key_Escape)) {
            event->accept();
            return true;
        }
    }
    return QAbstractScrollArea::event(event);
}

void NoteGrid::keyPressEvent(QKeyEvent* event) {
    if (tool.isActive() && event->key() == Qt::Key_Escape) return cancelGesture();
    if (!hasColumns() || !isCursorKey(*event)) return event->ignore();
    const int step = event->modifiers() & Qt::ControlModifier ? octave : 1;
    const auto columns = static_cast<int>(scene.columns.size());
    switch (event->key()) {
    case Qt::Key_Left:
        return moveCursor(-1, 0);
    case Qt::Key_Right:
        return moveCursor(1, 0);
    case Qt::Key_Up:
        return moveCursor(0, step);
    case Qt::Key_Down:
        return moveCursor(0, -step);
    case Qt::Key_PageUp:
        return moveCursor(0, octave);
    case Qt::Key_PageDown:
        return moveCursor(0, -octave);
    case Qt::Key_Home:
        return moveCursor(-columns, 0);
    case Qt::Key_End:
        return moveCursor(columns, 0);
    default:
        return removeNote();
    }
}

void NoteGrid::focusInEvent(QFocusEvent* event) {
    QAbstractScrollArea::focusInEvent(event);
    scene.hasFocus = true;
    viewport()->update();
}

void NoteGrid::focusOutEvent(QFocusEvent* event) {
    QAbstractScrollArea::focusOutEvent(event);
    scene.hasFocus = false;
    viewport()->update();
}

} // namespace earwright::ui
