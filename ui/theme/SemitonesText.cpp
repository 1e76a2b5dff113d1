#include "ui/theme/SemitonesText.h"

#include <QCoreApplication>

namespace earwright::ui {

QString semitonesText(int count) {
    return count == 1 ? QCoreApplication::translate("SemitonesText", "1 semitone")
                      : QCoreApplication::translate("SemitonesText", "%1 semitones").arg(count);
}

} // namespace earwright::ui
