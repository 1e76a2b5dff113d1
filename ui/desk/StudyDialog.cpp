#include "ui/desk/StudyDialog.h"

#include "ui/desk/DeskSession.h"

#include <QDialog>

namespace earwright::ui {

void openForThisStudy(QDialog& dialog, const DeskSession& session) {
    dialog.setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(&session, &DeskSession::opened, &dialog, &QDialog::reject);
    dialog.open();
}

} // namespace earwright::ui
