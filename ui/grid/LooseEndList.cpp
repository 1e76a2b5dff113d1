#include "ui/grid/LooseEndList.h"

#include "ui/grid/LooseEndDelegate.h"
#include "ui/grid/LooseEndModel.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Type.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QListView>
#include <QVBoxLayout>

#include <algorithm>

namespace earwright::ui {

namespace {

constexpr int mostRowsShown = 5;

} // namespace

LooseEndList::LooseEndList(QWidget* parent)
    : QWidget(parent),
      model(new LooseEndModel(this)),
      counts(new QLabel(this)),
      empty(new QLabel(tr("Nothing to come back to. Press Q while listening to set one."), this)),
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
    const auto choose = [this](const QModelIndex& index) {
        if (const LooseEnd* end = model->looseEnd(index)) emit placeChosen(end->time);
    };
    connect(list, &QListView::clicked, this, choose);
    connect(list, &QListView::activated, this, choose);
    showCounts();
}

void LooseEndList::setStudy(std::shared_ptr<const Study> study) {
    model->setStudy(std::move(study));
    showCounts();
}

void LooseEndList::showCounts() {
    const int all = model->rowCount();
    counts->setText(all == 0 ? QString() : tr("%1 open of %2").arg(model->openCount()).arg(all));
    empty->setVisible(all == 0);
    list->setVisible(all > 0);
    const int rowHeight = all > 0 ? list->sizeHintForRow(0) : 0;
    list->setFixedHeight(rowHeight * std::min(all, mostRowsShown) + 2);
}

void LooseEndList::setCurrent(LooseEndId id) {
    const QModelIndex index = model->indexOf(id);
    list->setCurrentIndex(index);
    list->scrollTo(index);
}

void LooseEndList::editText(LooseEndId id) {
    setCurrent(id);
    if (list->currentIndex().isValid()) list->edit(list->currentIndex());
}

bool LooseEndList::eventFilter(QObject* watched, QEvent* event) {
    if (watched == list && event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if ((key == Qt::Key_Delete || key == Qt::Key_Backspace) && list->currentIndex().isValid()) {
            model->remove(list->currentIndex());
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace earwright::ui
