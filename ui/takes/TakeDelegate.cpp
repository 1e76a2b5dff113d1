#include "ui/takes/TakeDelegate.h"

#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QLineEdit>
#include <QPainter>

namespace earwright::ui {

namespace {

constexpr int rowHeight = 20;
constexpr int nameLeft = 26;
constexpr int nameWidth = 190;

QRect namePlace(const QRect& row) {
    return {row.left() + nameLeft, row.top(), nameWidth, row.height()};
}

void paintHead(QPainter& painter, const QRect& row, bool chosen) {
    painter.setPen(QPen(color(Role::Written), 1.5));
    painter.setBrush(chosen ? QBrush(color(Role::Written)) : QBrush(Qt::NoBrush));
    painter.drawEllipse(QPointF(row.left() + 13, row.center().y() + 0.5), 4.5, 3.5);
}

void paintWords(QPainter& painter, const QRect& place, const QString& words, Role role,
                Qt::Alignment side = Qt::AlignLeft) {
    painter.setPen(color(role));
    painter.drawText(place, side | Qt::AlignVCenter,
                     painter.fontMetrics().elidedText(words, Qt::ElideRight, place.width()));
}

} // namespace

QSize TakeDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const {
    return {nameLeft + nameWidth, rowHeight};
}

void TakeDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    const QRect row = option.rect;
    const bool chosen = index.data(chosenRole).toBool();
    if (option.state & QStyle::State_Selected)
        painter->fillRect(row, color(Role::Rule, 0.6));
    else if (option.state & QStyle::State_MouseOver)
        painter->fillRect(row, color(Role::Shade));
    paintHead(*painter, row, chosen);
    QFont words = ui::font(TextStyle::Small);
    painter->setFont(words);
    const QRect rest = row.adjusted(nameLeft + nameWidth + spacing::small, 0, -spacing::small, 0);
    const QString heard = chosen ? tr("heard as yours") : QString();
    const int taken = painter->fontMetrics().horizontalAdvance(heard) + spacing::medium;
    paintWords(*painter, rest.adjusted(0, 0, -taken, 0), index.data(detailRole).toString(), Role::Muted);
    paintWords(*painter, rest, heard, Role::Written, Qt::AlignRight);
    if (chosen) words.setWeight(QFont::DemiBold);
    painter->setFont(words);
    paintWords(*painter, namePlace(row), index.data(Qt::DisplayRole).toString(), Role::Ink);
    painter->restore();
}

QWidget* TakeDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem&, const QModelIndex&) const {
    auto* editor = new QLineEdit(parent);
    editor->setAccessibleName(tr("Name of the take"));
    editor->setFont(ui::font(TextStyle::Small));
    // The desk's frame around fields is taller than a row.
    editor->setFrame(false);
    editor->setStyleSheet(QStringLiteral("QLineEdit { padding: 0 4px; border: none; }"));
    return editor;
}

void TakeDelegate::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                                        const QModelIndex&) const {
    editor->setGeometry(namePlace(option.rect).adjusted(-spacing::tight, 0, 0, 0));
}

} // namespace earwright::ui
