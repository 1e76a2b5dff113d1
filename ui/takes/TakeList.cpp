#include "ui/takes/TakeList.h"

#include "core/study/TakeEdits.h"
#include "ui/takes/TakeDelegate.h"
#include "ui/theme/StudyPlace.h"
#include "ui/theme/Type.h"

#include <QKeyEvent>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr int idRole = Qt::UserRole;
constexpr int mostRowsShown = 3;

} // namespace

TakeList::TakeList(QWidget* parent) : QListWidget(parent) {
    setAccessibleName(tr("Takes"));
    setFont(ui::font(TextStyle::Small));
    setFrameShape(QFrame::NoFrame);
    setItemDelegate(new TakeDelegate(this));
    setEditTriggers(QAbstractItemView::EditKeyPressed);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    hide();
    connect(this, &QListWidget::itemDoubleClicked, this, [this] { chooseCurrent(); });
    connect(this, &QListWidget::itemChanged, this, &TakeList::rename);
}

QString TakeList::describe(const Take& take) const {
    QString text = tr("from %1, at %2 %").arg(placeIn(*study, take.at)).arg(std::lround(take.speed * 100));
    if (std::abs(take.semitones) > 1e-6)
        text += tr(", %1%2 semitones")
                    .arg(take.semitones > 0 ? QChar(u'+') : QChar(u'−'))
                    .arg(std::abs(take.semitones));
    return text;
}

void TakeList::setStudy(std::shared_ptr<const Study> next) {
    if (study && next && study->takes == next->takes && study->beatMap == next->beatMap) {
        study = std::move(next);
        return;
    }
    // New takes draw the eye to the one that is heard; otherwise the row stays where it was.
    const bool grew = !study || (next && next->takes.size() > study->takes.size());
    study = std::move(next);
    filling = true;
    if (hasItsTakes())
        for (int row = 0; row < count(); ++row)
            fill(*item(row), study->takes[static_cast<std::size_t>(row)]);
    else
        listAnew(grew);
    filling = false;
}

/// Whether there is an item for each take already, so that one that is being named stays where it is.
bool TakeList::hasItsTakes() const {
    if (static_cast<std::size_t>(count()) != study->takes.size()) return false;
    for (int row = 0; row < count(); ++row)
        if (item(row)->data(idRole).toULongLong() != study->takes[static_cast<std::size_t>(row)].id.value)
            return false;
    return true;
}

void TakeList::fill(QListWidgetItem& item, const Take& take) {
    item.setText(QString::fromStdString(take.name));
    item.setData(idRole, QVariant::fromValue<qulonglong>(take.id.value));
    item.setFlags(item.flags() | Qt::ItemIsEditable);
    item.setData(TakeDelegate::chosenRole, take.chosen);
    item.setData(TakeDelegate::detailRole, describe(take));
    const QString state = take.chosen ? tr("heard as yours") : tr("not heard");
    item.setData(Qt::AccessibleTextRole, tr("%1, %2, %3").arg(item.text(), describe(take), state));
}

void TakeList::listAnew(bool toTheHeard) {
    const auto wanted = currentItem() && !toTheHeard ? currentItem()->data(idRole).toULongLong() : 0;
    int row = wanted != 0 ? currentRow() : static_cast<int>(study->takes.size());
    clear();
    for (const Take& take : study->takes) {
        if (wanted != 0 ? take.id.value == wanted : take.chosen) row = count();
        auto* item = new QListWidgetItem(this);
        fill(*item, take);
    }
    if (count() > 0) setCurrentRow(std::min(row, count() - 1));
    scrollToItem(currentItem());
    const int rows = std::min(count(), mostRowsShown);
    setFixedHeight(rows > 0 ? rows * sizeHintForRow(0) + 2 : 0);
    setVisible(rows > 0);
}

const Take* TakeList::current() const {
    if (!study || !currentItem()) return nullptr;
    return study->take(TakeId{currentItem()->data(idRole).toULongLong()});
}

void TakeList::chooseCurrent() {
    const Take* take = current();
    if (!take) return;
    if (take->chosen)
        emit edited(chooseTake(*study, std::nullopt), tr("hear the written notes"));
    else
        emit edited(chooseTake(*study, take->id), tr("hear a take"));
}

void TakeList::removeCurrent() {
    if (const Take* take = current()) emit edited(removeTake(*study, take->id), tr("remove a take"));
}

void TakeList::rename(QListWidgetItem* item) {
    if (filling || !study) return;
    const TakeId id{item->data(idRole).toULongLong()};
    const Take* take = study->take(id);
    const std::string name = item->text().trimmed().toStdString();
    if (!take) return;
    if (!name.empty() && take->name != name)
        return emit edited(renameTake(*study, id, name), tr("name a take"));
    // A take without a name could not be told from the others.
    filling = true;
    item->setText(QString::fromStdString(take->name));
    filling = false;
}

void TakeList::keyPressEvent(QKeyEvent* event) {
    // What the field of a name leaves is about the name.
    if (state() == EditingState) return;
    if (event->key() == Qt::Key_Delete) return removeCurrent();
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) return chooseCurrent();
    QListWidget::keyPressEvent(event);
}

} // namespace earwright::ui
