#include "ui/desk/FoundBar.h"

#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"

#include <QPainter>

namespace earwright::ui {

namespace {

constexpr double thickness = 9;
constexpr double outline = 1.2;

} // namespace

void FoundBar::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    QStyledItemDelegate::paint(painter, option, index);
    const double byEar = index.data(byEarRole).toDouble();
    const double withHelp = index.data(withHelpRole).toDouble();
    const QRectF room = QRectF(option.rect).adjusted(spacing::small, 0, -spacing::small, 0);
    const double top = room.center().y() - thickness / 2;
    const QRectF full(room.left(), top, room.width() * byEar, thickness);
    const QRectF hollow(full.right(), top, room.width() * withHelp, thickness);
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->fillRect(full, color(Role::Written));
    painter->setPen(QPen(color(Role::Written), outline));
    painter->setBrush(Qt::NoBrush);
    const double half = outline / 2;
    if (withHelp > 0) painter->drawRect(hollow.adjusted(half, half, -half, -half));
    painter->restore();
}

} // namespace earwright::ui
