#include "ui/desk/MenuRowStretch.h"

#include "ui/theme/Spacing.h"

#include <QEvent>
#include <QMenuBar>

#include <algorithm>

namespace earwright::ui {

MenuRowStretch::MenuRowStretch(QMenuBar& bar, QWidget& corner) : QWidget(bar.window()), menus(bar), title(corner) {
    menus.installEventFilter(this);
    title.installEventFilter(this);
    keepTo();
}

bool MenuRowStretch::eventFilter(QObject* watched, QEvent* event) {
    switch (event->type()) {
    case QEvent::Resize:
    case QEvent::Move:
    case QEvent::Show:
    case QEvent::LayoutRequest:
        keepTo();
        break;
    default:
        break;
    }
    return QWidget::eventFilter(watched, event);
}

void MenuRowStretch::keepTo() {
    int left = 0;
    for (QAction* menu : menus.actions())
        left = std::max(left, menus.actionGeometry(menu).right());
    left += spacing::large;
    // Before anything was laid out the title has no place of its own.
    const bool isTitled = title.isVisible() && title.x() > left;
    const int right = (isTitled ? title.x() : menus.width()) - spacing::medium;
    // With the gap under the row, for sentences of two lines.
    const QPoint corner = menus.mapTo(window(), QPoint(left, 0));
    setGeometry(corner.x(), corner.y(), std::max(0, right - left), menus.height() + spacing::tight);
    raise();
}

} // namespace earwright::ui
