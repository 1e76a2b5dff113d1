#include "ui/grid/LooseEndDelegate.h"

#include "ui/grid/LooseEndModel.h"
#include "ui/theme/FocusLine.h"
#include "ui/theme/Marks.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QLineEdit>
#include <QMouseEvent>
#include <QPainter>

namespace earwright::ui {

namespace {

constexpr int rowHeight = 26;
constexpr int boxSize = 13;
constexpr int textLeft = 52;

void paintTickBox(QPainter& painter, const QRect& box, bool ticked) {
    painter.setPen(QPen(color(Role::Muted), 1));
    painter.setBrush(color(Role::Page));
    painter.drawRoundedRect(QRectF(box).adjusted(0.5, 0.5, -0.5, -0.5), 2.5, 2.5);
    if (!ticked) return;
    painter.setPen(QPen(color(Role::Ink), 1.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    const QPointF from = box.topLeft();
    const QPointF tick[] = {from + QPointF(3, 6.5), from + QPointF(5.5, 9.2), from + QPointF(10, 3.6)};
    painter.drawPolyline(tick, 3);
}

int placeWidth(const QModelIndex& index) {
    return QFontMetrics(ui::font(TextStyle::Small))
               .horizontalAdvance(index.data(LooseEndModel::placeRole).toString()) +
           spacing::small;
}

} // namespace

QRect LooseEndDelegate::tickBox(const QRect& row) {
    return {row.left() + spacing::small, row.center().y() - boxSize / 2, boxSize, boxSize};
}

bool LooseEndDelegate::isOnTickBox(const QRect& row, const QPoint& at) {
    return tickBox(row).adjusted(-6, -6, 6, 6).contains(at);
}

QSize LooseEndDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const {
    return {200, rowHeight};
}

void LooseEndDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                             const QModelIndex& index) const {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    const QRect row = option.rect;
    const bool done = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
    if (option.state & QStyle::State_Selected)
        painter->fillRect(row, color(Role::Rule, 0.6));
    else if (option.state & QStyle::State_MouseOver)
        painter->fillRect(row, color(Role::Shade));
    if (option.state & QStyle::State_HasFocus) paintFocusLine(*painter, row);
    paintTickBox(*painter, tickBox(row), done);
    paintFlag(*painter, QPointF(row.left() + 33, row.center().y() + 7), 13, color(Role::LooseEnd), done);

    const int place = placeWidth(index);
    QRect text = row.adjusted(textLeft, 0, -place - spacing::small, 0);
    painter->setFont(ui::font(TextStyle::Body));
    painter->setPen(color(done ? Role::Muted : Role::Ink));
    const QString words = index.data(Qt::DisplayRole).toString();
    painter->drawText(text, Qt::AlignVCenter,
                      painter->fontMetrics().elidedText(words.isEmpty() ? tr("come back here") : words,
                                                        Qt::ElideRight, text.width()));
    painter->setFont(ui::font(TextStyle::Small));
    painter->setPen(color(Role::Muted));
    painter->drawText(row.adjusted(0, 0, -spacing::small, 0), Qt::AlignRight | Qt::AlignVCenter,
                      index.data(LooseEndModel::placeRole).toString());
    painter->restore();
}

bool LooseEndDelegate::editorEvent(QEvent* event, QAbstractItemModel* model,
                                   const QStyleOptionViewItem& option, const QModelIndex& index) {
    if (event->type() != QEvent::MouseButtonRelease) return false;
    const auto* mouse = static_cast<QMouseEvent*>(event);
    if (mouse->button() != Qt::LeftButton || !isOnTickBox(option.rect, mouse->pos())) return false;
    const bool done = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
    return model->setData(index, done ? Qt::Unchecked : Qt::Checked, Qt::CheckStateRole);
}

QWidget* LooseEndDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem&,
                                        const QModelIndex&) const {
    auto* editor = new QLineEdit(parent);
    editor->setAccessibleName(tr("Word of the loose end"));
    editor->setPlaceholderText(tr("a word for it"));
    return editor;
}

void LooseEndDelegate::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                                            const QModelIndex& index) const {
    editor->setGeometry(option.rect.adjusted(textLeft - 8, 1, -placeWidth(index) - spacing::small, -1));
}

} // namespace earwright::ui
