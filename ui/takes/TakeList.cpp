#include "ui/takes/TakeList.h"

#include "core/study/TakeEdits.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/StudyPlace.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QKeyEvent>
#include <QPainter>
#include <QPixmap>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr int idRole = Qt::UserRole;
constexpr int mostRowsShown = 4;
constexpr int headSize = 10;

/// A full head for the take that is heard, an empty one for the others.
QPixmap head(bool chosen, const QColor& ink) {
    QPixmap picture(headSize + 2, headSize + 2);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(ink, 1.5));
    if (chosen) painter.setBrush(ink);
    painter.drawEllipse(QRectF(1.5, 2.5, headSize - 1, headSize - 3));
    return picture;
}

QIcon headIcon(bool chosen) {
    QIcon icon(head(chosen, color(Role::Written)));
    icon.addPixmap(head(chosen, color(Role::OnMark)), QIcon::Selected);
    return icon;
}

} // namespace

TakeList::TakeList(QWidget* parent) : QListWidget(parent) {
    setAccessibleName(tr("Takes"));
    setFont(ui::font(TextStyle::Small));
    setFrameShape(QFrame::NoFrame);
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
    study = std::move(next);
    const Take* before = nullptr;
    const auto wanted = currentItem() ? currentItem()->data(idRole).toULongLong() : 0;
    filling = true;
    clear();
    for (const Take& take : study->takes) {
        auto* item = new QListWidgetItem(headIcon(take.chosen), QString::fromStdString(take.name), this);
        item->setData(idRole, QVariant::fromValue<qulonglong>(take.id.value));
        item->setFlags(item->flags() | Qt::ItemIsEditable);
        item->setToolTip(describe(take));
        QFont words = ui::font(take.chosen ? TextStyle::Strong : TextStyle::Small);
        words.setPixelSize(ui::font(TextStyle::Small).pixelSize());
        item->setFont(words);
        const QString state = take.chosen ? tr("heard as yours") : tr("not heard");
        item->setData(Qt::AccessibleTextRole, tr("%1, %2, %3").arg(item->text(), describe(take), state));
        if (take.id.value == wanted) before = &take;
    }
    if (count() > 0) setCurrentRow(before ? static_cast<int>(before - study->takes.data()) : count() - 1);
    filling = false;
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
    if (take && take->name != name) emit edited(renameTake(*study, id, name), tr("name a take"));
}

void TakeList::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Delete) return removeCurrent();
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) return chooseCurrent();
    QListWidget::keyPressEvent(event);
}

} // namespace earwright::ui
