// Several fields in one row of a form.
#pragma once

#include <initializer_list>

class QWidget;

namespace earwright::ui {

/// From the left, no wider than they need. Ownership: of the widgets the row's; of the row the caller's,
/// until it goes into a layout.
QWidget* widgetRow(std::initializer_list<QWidget*> widgets);

} // namespace earwright::ui
