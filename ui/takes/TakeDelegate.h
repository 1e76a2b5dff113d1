// How one take looks in the list.
#pragma once

#include <QStyledItemDelegate>

namespace earwright::ui {

/// A full head for the take that is heard, an empty one for the others; its name, where it was played, and
/// in words that it is heard.
class TakeDelegate : public QStyledItemDelegate {
    Q_OBJECT
public:
    /// Whether the take is heard as "yours".
    static constexpr int chosenRole = Qt::UserRole + 1;
    /// Where and how fast it was played.
    static constexpr int detailRole = Qt::ToolTipRole;

    using QStyledItemDelegate::QStyledItemDelegate;

    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override;
    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                              const QModelIndex& index) const override;
};

} // namespace earwright::ui
