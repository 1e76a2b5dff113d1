#include "ui/desk/ReplaceQuestion.h"

#include "ui/desk/StudyPaths.h"

#include <QAbstractButton>
#include <QPushButton>

#include <utility>

namespace earwright::ui {

ReplaceQuestion::ReplaceQuestion(const std::vector<std::filesystem::path>& there,
                                 std::function<void()> replace, QWidget* parent)
    : QMessageBox(parent) {
    const bool isOne = there.size() == 1;
    setWindowTitle(isOne ? tr("Replace the file?") : tr("Replace the files?"));
    setText((isOne ? tr("%1 is there already.") : tr("%1 are there already.")).arg(namesOf(there)));
    setInformativeText(isOne ? tr("Replace it, or cancel and give another name.")
                             : tr("Replace them, or cancel and give another name."));
    addButton(tr("&Replace"), QMessageBox::AcceptRole);
    setDefaultButton(addButton(QMessageBox::Cancel));
    connect(this, &QMessageBox::buttonClicked, this,
            [this, deed = std::move(replace)](QAbstractButton* button) {
                if (buttonRole(button) == QMessageBox::AcceptRole) deed();
            });
}

} // namespace earwright::ui
