#include "ui/grid/LooseEndList.h"

#include "ui/grid/LooseEndDelegate.h"
#include "ui/grid/LooseEndModel.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Type.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QListView>
#include <QMouseEvent>
#include <QVBoxLayout>

#include <algorithm>
#include <optional>
#include <utility>

namespace earwright::ui {

namespace {

constexpr int mostRowsShown = 5;

} // namespace

LooseEndList::LooseEndList(QWidget* parent)
    : QWidget(parent),
      model(new LooseEndModel(this)),
      counts(new QLabel(this)),
      empty(new QLabel(this)),
      list(new QListView(this)) {
    auto* title = new QLabel(tr("Loose ends"), this);
    title->setFont(ui::font(TextStyle::Strong));
    for (QLabel* quiet : {counts, empty}) {
        quiet->setFont(ui::font(TextStyle::Small));
        quiet->setForegroundRole(QPalette::PlaceholderText);
    }
    empty->setWordWrap(true);
    list->setAccessibleName(tr("Loose ends"));
    list->setModel(model);
    list->setItemDelegate(new LooseEndDelegate(list));
    list->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed);
    list->setMouseTracking(true);
    list->setFrameShape(QFrame::NoFrame);
    list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list->viewport()->setAutoFillBackground(false);
    list->installEventFilter(this);
    list->viewport()->installEventFilter(this);

    auto* heading = new QHBoxLayout;
    heading->setSpacing(spacing::medium);
    heading->addWidget(title);
    heading->addWidget(counts, 1);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(spacing::tight);
    column->addLayout(heading);
    column->addWidget(empty);
    column->addWidget(list);

    connect(model, &LooseEndModel::edited, this, &LooseEndList::edited);
    connect(list, &QListView::clicked, this, [this](const QModelIndex& index) {
        // Whoever ticks one off stays where they are.
        if (!LooseEndDelegate::isOnTickBox(list->visualRect(index), releasedAt)) goTo(index);
    });
    setKeys(tableKey);
    showCounts();
}

void LooseEndList::setKeys(const KeyOf& keyOf) {
    empty->setText(tr("Nothing to come back to. %1 while listening to set one.")
                       .arg(howToSentence(CommandId::LooseEndHere, keyOf)));
}

void LooseEndList::setStudy(std::shared_ptr<const Study> study) {
    const int row = list->currentIndex().row();
    const LooseEnd* end = model->looseEnd(list->currentIndex());
    const std::optional<LooseEndId> id = end ? std::optional(end->id) : std::nullopt;
    model->setStudy(std::move(study));
    showCounts();
    if (!id || list->currentIndex().isValid() || model->rowCount() == 0) return;
    // Where one was taken out the keyboard goes to the next: without a row its keys would be the desk's.
    const QModelIndex same = model->indexOf(*id);
    list->setCurrentIndex(same.isValid() ? same : model->index(std::min(row, model->rowCount() - 1)));
}

void LooseEndList::goTo(const QModelIndex& index) {
    if (const LooseEnd* end = model->looseEnd(index)) emit placeChosen(end->time);
}

void LooseEndList::showCounts() {
    const int all = model->rowCount();
    counts->setText(all == 0 ? QString() : tr("%1 open of %2").arg(model->openCount()).arg(all));
    empty->setVisible(all == 0);
    list->setVisible(all > 0);
    const int rowHeight = all > 0 ? list->sizeHintForRow(0) : 0;
    list->setFixedHeight(rowHeight * std::min(all, mostRowsShown) + 2);
}

bool LooseEndList::act(int key, const QModelIndex& index) {
    switch (key) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
        goTo(index);
        return true;
    case Qt::Key_Space:
        model->setData(index, model->looseEnd(index)->done ? Qt::Unchecked : Qt::Checked, Qt::CheckStateRole);
        return true;
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        model->remove(index);
        return true;
    default:
        return false;
    }
}

bool LooseEndList::eventFilter(QObject* watched, QEvent* event) {
    if (watched == list->viewport() && event->type() == QEvent::MouseButtonRelease)
        releasedAt = static_cast<QMouseEvent*>(event)->position().toPoint();
    // A field for words lets Enter through when it is done with it.
    const bool isWorded = list->isPersistentEditorOpen(list->currentIndex());
    if (watched == list && event->type() == QEvent::KeyPress && list->currentIndex().isValid() && !isWorded) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const bool plain = !(key->modifiers() & ~Qt::KeypadModifier);
        if (plain && act(key->key(), list->currentIndex())) return true;
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace earwright::ui
