#include "ui/theme/WidgetRow.h"

#include <QHBoxLayout>
#include <QWidget>

namespace earwright::ui {

QWidget* widgetRow(std::initializer_list<QWidget*> widgets) {
    auto* row = new QWidget;
    auto* line = new QHBoxLayout(row);
    line->setContentsMargins(0, 0, 0, 0);
    for (QWidget* widget : widgets)
        line->addWidget(widget);
    line->addStretch(1);
    return row;
}

} // namespace earwright::ui
