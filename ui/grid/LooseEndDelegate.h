// How one loose end looks in the list, and how its box is ticked.
#pragma once

#include <QStyledItemDelegate>

namespace earwright::ui {

/// A box to tick, the flag, the text and the place.
class LooseEndDelegate : public QStyledItemDelegate {
    Q_OBJECT
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    static QRect tickBox(const QRect& row);
    /// Whether a click there ticks the box of a row: the box and a little around it.
    static bool isOnTickBox(const QRect& row, const QPoint& at);

    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    bool editorEvent(QEvent* event, QAbstractItemModel* model, const QStyleOptionViewItem& option,
                     const QModelIndex& index) override;
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override;
    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                              const QModelIndex& index) const override;
};

} // namespace earwright::ui
