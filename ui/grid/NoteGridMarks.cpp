// Dynamics, hairpins and words in the lane under the cells; the rest of the view is in NoteGrid.cpp.
#include "ui/grid/NoteGrid.h"
#include "ui/grid/PageMarkEdits.h"
#include "ui/theme/Type.h"

#include <QKeyEvent>
#include <QLineEdit>
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
    if (!hasColumns()) return;
    const Beats at = markPlace();
    auto* field = new QLineEdit(wordsAt(*study, at, below), viewport());
    field->setAccessibleName(below ? tr("Words below the line") : tr("Words over the line"));
    field->setFont(ui::font(TextStyle::Small));
    const QRectF lane = geometry.markLane();
    const double width = std::min(220.0, lane.width());
    const double left = std::clamp(geometry.x(at), lane.left(), lane.right() - width);
    const int height = field->sizeHint().height();
    field->setGeometry(qRound(left), qRound(lane.bottom()) - height, qRound(width), height);
    connect(field, &QLineEdit::returnPressed, this, [this, field, at, below] {
        const QString words = field->text();
        setFocus();
        if (study) apply(wordsSet(*study, at, words, below));
    });
    connect(field, &QLineEdit::editingFinished, field, &QObject::deleteLater);
    field->installEventFilter(this);
    field->selectAll();
    field->show();
    field->setFocus();
}

bool NoteGrid::eventFilter(QObject* watched, QEvent* event) {
    // Esc in the field of words: what was typed is let go.
    const bool isEscape = (event->type() == QEvent::KeyPress || event->type() == QEvent::ShortcutOverride) &&
                          static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape;
    if (!isEscape || !qobject_cast<QLineEdit*>(watched))
        return QAbstractScrollArea::eventFilter(watched, event);
    event->accept();
    if (event->type() == QEvent::KeyPress) {
        watched->deleteLater();
        setFocus();
    }
    return true;
}

void NoteGrid::offerPageMarks(const Beats& at, QPoint where) {
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
    connect(menu->addAction(tr("Louder over what is selected")), &QAction::triggered, this,
            [this] { toggleHairpin(HairpinKind::Louder); });
    connect(menu->addAction(tr("Softer over what is selected")), &QAction::triggered, this,
            [this] { toggleHairpin(HairpinKind::Softer); });
    menu->addSeparator();
    connect(menu->addAction(tr("Words over the line…")), &QAction::triggered, this,
            [this] { askForWords(false); });
    connect(menu->addAction(tr("Words below the line…")), &QAction::triggered, this,
            [this] { askForWords(true); });
    menu->addSeparator();
    connect(menu->addAction(tr("Take away what stands here")), &QAction::triggered, this,
            [this] { clearPageMarks(); });
    menu->popup(where);
}

} // namespace earwright::ui
