#include "ui/desk/FileField.h"

#include "ui/desk/StudyPaths.h"

#include <QFileDialog>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>

namespace earwright::ui {

namespace {

/// "pdf" of "Pages (*.pdf)".
QString suffixOf(const QString& kind) {
    return kind.section(QLatin1String("*."), 1).chopped(1);
}

} // namespace

FileField::FileField(const std::filesystem::path& start, const QString& name, const QString& dialogTitle,
                     const QStringList& offered, QWidget* parent)
    : QWidget(parent),
      title(dialogTitle),
      kinds(offered),
      kind(offered.front()),
      edit(new QLineEdit(textOf(start))) {
    edit->setAccessibleName(name);
    setFocusProxy(edit);
    auto* button = new QPushButton(tr("Ch&oose…"));
    button->setAutoDefault(false);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(edit);
    row->addWidget(button);
    followEnding();
    connect(edit, &QLineEdit::textChanged, this, &FileField::followEnding);
    connect(edit, &QLineEdit::textChanged, this, &FileField::changed);
    connect(button, &QPushButton::clicked, this, &FileField::choose);
}

std::filesystem::path FileField::path() const {
    return pathOf(edit->text().trimmed());
}

void FileField::setPath(const std::filesystem::path& path) {
    edit->setText(textOf(path));
}

void FileField::followEnding() {
    const QString ending = textOf(path().extension()).mid(1);
    for (const QString& each : kinds)
        if (suffixOf(each) == ending) kind = each;
}

void FileField::choose() {
    auto* dialog = new QFileDialog(this, title, edit->text());
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setAcceptMode(QFileDialog::AcceptSave);
    // Asked when it is written and everything that would be replaced is known.
    dialog->setOption(QFileDialog::DontConfirmOverwrite);
    dialog->setNameFilters(kinds);
    dialog->selectNameFilter(kind);
    dialog->setDefaultSuffix(suffixOf(kind));
    dialog->selectFile(textOf(path()));
    // A name without an ending is of the kind chosen.
    connect(dialog, &QFileDialog::filterSelected, dialog,
            [dialog](const QString& filter) { dialog->setDefaultSuffix(suffixOf(filter)); });
    connect(dialog, &QFileDialog::fileSelected, edit, &QLineEdit::setText);
    dialog->open();
}

} // namespace earwright::ui
