#include "ui/desk/SheetDesk.h"

#include "ui/desk/StudyPaths.h"
#include "ui/page/ExampleSheet.h"

#include <QFileDialog>

namespace earwright::ui {

namespace {

const auto subject = QStringLiteral("sheet");

} // namespace

SheetDesk::SheetDesk(DeskSession& desk, MessageBar& bar, QWidget& over)
    : QObject(&over), session(desk), messages(bar), window(over) {}

void SheetDesk::askWhereTo() {
    const std::filesystem::path& study = session.studyFile();
    auto* dialog = new QFileDialog(&window, tr("Write the example sheet"), textOf(study.parent_path()));
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setAcceptMode(QFileDialog::AcceptSave);
    dialog->setDefaultSuffix(QStringLiteral("pdf"));
    dialog->setNameFilters({tr("Pages (*.pdf)"), tr("Drawings (*.svg)"), tr("Pictures (*.png)")});
    if (!study.empty()) dialog->selectFile(textOf(study.stem()) + QStringLiteral(".pdf"));
    // A name without an ending is of the kind chosen.
    connect(dialog, &QFileDialog::filterSelected, dialog, [dialog](const QString& filter) {
        dialog->setDefaultSuffix(filter.section(QLatin1String("*."), 1).chopped(1));
    });
    connect(dialog, &QFileDialog::fileSelected, this, [this](const QString& file) { writeTo(pathOf(file)); });
    dialog->open();
}

void SheetDesk::writeTo(const std::filesystem::path& file) {
    if (!session.isOpen()) return;
    if (session.study().notes.empty())
        return messages.say(subject, MessageBar::Tone::Notice,
                            tr("Nothing is written yet to make a sheet of."));
    const auto written = writeExampleSheet(session.study(), {}, file);
    if (!written)
        return messages.say(subject, MessageBar::Tone::Trouble,
                            QString::fromStdString(describe(written.error())));
    const QString name = QString::fromStdString(written->front().filename().string());
    messages.say(subject, MessageBar::Tone::Notice,
                 written->size() == 1
                     ? tr("The example sheet is in %1.").arg(name)
                     : tr("The example sheet is in %1 and %2 more.").arg(name).arg(written->size() - 1));
}

} // namespace earwright::ui
