#include "ui/desk/Today.h"

#include <QDate>

namespace earwright::ui {

Day today() {
    const QDate date = QDate::currentDate();
    return std::chrono::year(date.year()) / date.month() / date.day();
}

} // namespace earwright::ui
