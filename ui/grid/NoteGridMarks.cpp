// Dynamics, hairpins and words in the lane under the cells; the rest of the view is in NoteGrid.cpp.
#include "ui/grid/NoteGrid.h"
#include "ui/grid/PageMarkEdits.h"
#include "ui/theme/InlineEditor.h"

#include <QContextMenuEvent>
#include <QMenu>

#include <algorithm>

namespace earwright::ui {

Beats NoteGrid::markPlace() const {
    const Note* note = scene.selected ? scene.study->note(*scene.selected) : nullptr;
    return note ? note->onset : scene.columns[scene.columns.indexAt(scene.cursor.place)].range.begin;
}

Range<Beats> NoteGrid::markRange() const {
    Range<Beats> range{markPlace(), scene.columns[scene.columns.indexAt(scene.cursor.place)].range.end};
    for (const NoteId id : scene.selectedNotes())
        if (const Note* note = scene.study->note(id))
            range = {std::min(range.begin, note->onset), std::max(range.end, note->end())};
    return range;
}

void NoteGrid::stepDynamic(int by) {
    if (hasColumns()) apply(dynamicStepped(*study, markPlace(), by));
}

void NoteGrid::toggleHairpin(HairpinKind kind) {
    if (hasColumns()) apply(hairpinToggled(*study, markRange(), kind));
}

void NoteGrid::clearPageMarks() {
    if (hasColumns()) apply(pageMarksCleared(*study, markRange()));
}

void NoteGrid::askForWords(bool below) {
    if (hasColumns()) askForWords(markPlace(), below);
}

void NoteGrid::askForWords(const Beats& at, bool below) {
    const QRectF lane = geometry.markLane();
    const double width = std::min(220.0, lane.width());
    const double left = std::clamp(geometry.x(at), lane.left(), lane.right() - width);
    const int height = wordsField->sizeHint().height();
    const QRect place(qRound(left), qRound(lane.bottom()) - height, qRound(width), height);
    wordsField->open(place, wordsAt(*study, at, below),
                     below ? tr("Words below the line") : tr("Words over the line"),
                     [this, at, below](const QString& words) {
                         if (study) apply(wordsSet(*study, at, words, below));
                     });
}

bool NoteGrid::isSelectedNoteIn(const Range<Beats>& column) const {
    const Note* note = scene.selected ? scene.study->note(*scene.selected) : nullptr;
    return note && column.contains(note->onset);
}

void NoteGrid::contextMenuEvent(QContextMenuEvent* event) {
    // The right button takes a note out; the menu key asks for what a click in the lane offers.
    if (event->reason() != QContextMenuEvent::Keyboard || !hasColumns()) return event->ignore();
    scrollToCursor();
    const Range<Beats> column = scene.columns[scene.columns.indexAt(scene.cursor.place)].range;
    const QPointF at(geometry.x(column.begin), geometry.markLane().bottom());
    offerPageMarks(column, viewport()->mapToGlobal(at.toPoint()));
}

void NoteGrid::offerPageMarks(const Range<Beats>& column, QPoint where) {
    const bool isForNote = isSelectedNoteIn(column);
    const Beats at = isForNote ? markPlace() : column.begin;
    const Range<Beats> range = isForNote ? markRange() : column;
    auto* menu = new QMenu(this);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    const std::vector<DynamicMark>& dynamics = study->page.dynamics;
    for (int i = 0; i <= static_cast<int>(Dynamic::sfz); ++i) {
        const auto level = static_cast<Dynamic>(i);
        QAction* action = menu->addAction(dynamicText(level));
        action->setCheckable(true);
        const bool isThere =
            std::find(dynamics.begin(), dynamics.end(), DynamicMark{at, level}) != dynamics.end();
        action->setChecked(isThere);
        connect(action, &QAction::triggered, this, [this, at, level, isThere] {
            apply(dynamicSet(*study, at, isThere ? std::nullopt : std::optional(level)));
        });
    }
    menu->addSeparator();
    connect(menu->addAction(isForNote ? tr("Louder over what is selected") : tr("Louder over this column")),
            &QAction::triggered, this,
            [this, range] { apply(hairpinToggled(*study, range, HairpinKind::Louder)); });
    connect(menu->addAction(isForNote ? tr("Softer over what is selected") : tr("Softer over this column")),
            &QAction::triggered, this,
            [this, range] { apply(hairpinToggled(*study, range, HairpinKind::Softer)); });
    menu->addSeparator();
    connect(menu->addAction(tr("Words over the line…")), &QAction::triggered, this,
            [this, at] { askForWords(at, false); });
    connect(menu->addAction(tr("Words below the line…")), &QAction::triggered, this,
            [this, at] { askForWords(at, true); });
    menu->addSeparator();
    connect(menu->addAction(tr("Take away what stands here")), &QAction::triggered, this,
            [this, range] { apply(pageMarksCleared(*study, range)); });
    menu->popup(where);
}

} // namespace earwright::ui
