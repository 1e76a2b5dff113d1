// Draws how many notes were found as a small bar in a table: full by ear, hollow with help.
#pragma once

#include <QStyledItemDelegate>

namespace earwright::ui {

class FoundBar : public QStyledItemDelegate {
    Q_OBJECT
public:
    /// Shares of the longest bar in the group, 0 to 1.
    static constexpr int byEarRole = Qt::UserRole;
    static constexpr int withHelpRole = Qt::UserRole + 1;

    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
};

} // namespace earwright::ui
