#include "ui/desk/ExportDialog.h"

#include "ui/desk/FileField.h"
#include "ui/desk/StudyPaths.h"
#include "ui/page/ChoiceBox.h"
#include "ui/theme/SpinBox.h"
#include "ui/theme/WidgetRow.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>
#include <QSpinBox>
#include <QStandardItemModel>
#include <QVBoxLayout>

#include <cmath>

namespace earwright::ui {

namespace {

constexpr int usualTempo = 120;

// Of the string places, in the order of the list.
constexpr int placesOfNotes = 0;
constexpr int partInTablature = 1;
constexpr int noPlaces = 2;

// Of a MIDI file's notes, in the order of the list.
constexpr int swung = 0;
constexpr int even = 1;
constexpr int asRecorded = 2;

} // namespace

ExportDialog::ExportDialog(const ExportChoices& asBefore, bool isSounding, Write deed, QWidget* parent)
    : QDialog(parent), start(asBefore), hasSound(isSounding), write(std::move(deed)), form(new QFormLayout) {
    setWindowTitle(tr("For other programs"));
    addKind();
    addPage();
    addMidi();
    addFile();
    trouble = new QLabel;
    trouble->setWordWrap(true);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
    writeButton = buttons->addButton(tr("&Write"), QDialogButtonBox::AcceptRole);
    auto* column = new QVBoxLayout(this);
    column->addLayout(form);
    column->addWidget(trouble);
    column->addStretch(1);
    column->addWidget(buttons);
    // Once it is in its dialog, and beside no other that Enter could press.
    buttons->button(QDialogButtonBox::Cancel)->setAutoDefault(false);
    writeButton->setDefault(true);
    connect(buttons, &QDialogButtonBox::accepted, this, &ExportDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    judge();
    resize(560, sizeHint().height());
}

void ExportDialog::addKind() {
    kind = new QComboBox;
    kind->addItem(tr("MusicXML, for notation programs"), QStringLiteral(".musicxml"));
    kind->addItem(tr("MusicXML, compressed"), QStringLiteral(".mxl"));
    kind->addItem(tr("MIDI, for what plays it"), QStringLiteral(".mid"));
    form->addRow(tr("&Kind"), kind);
    connect(kind, &QComboBox::activated, this, &ExportDialog::endAsChosen);
}

void ExportDialog::addPage() {
    reading = choiceBox(readingChoices(), start.page.reading);
    form->addRow(tr("&Notes"), reading);
    strings = new QComboBox;
    strings->addItems(
        {tr("string and fret of each note"), tr("a part in tablature as well"), tr("left out")});
    strings->setCurrentIndex(start.page.tablature ? partInTablature
                             : start.page.places  ? placesOfNotes
                                                  : noPlaces);
    strings->setToolTip(tr("As the study's strings are tuned: menu Page, Strings and tuning"));
    form->addRow(tr("&Strings"), strings);
    degrees = new QCheckBox(tr("&Degrees on the chords, under the notes"));
    degrees->setChecked(start.page.degrees);
    form->addRow(degrees);
}

void ExportDialog::addMidi() {
    playing = new QComboBox;
    playing->addItems(
        {tr("as written, with their swing"), tr("as written, even"), tr("as the record plays them")});
    playing->setCurrentIndex(start.asPlayed && hasSound ? asRecorded : start.midi.swings ? swung : even);
    auto* items = qobject_cast<QStandardItemModel*>(playing->model());
    items->item(asRecorded)->setEnabled(hasSound);
    playing->setToolTip(hasSound ? tr("Onsets, lengths and loudness can be measured in the recording")
                                 : tr("There is no recording whose bars are marked, to measure them in"));
    form->addRow(tr("&Notes"), playing);
    hasTempo = new QCheckBox(tr("one &throughout"));
    hasTempo->setToolTip(tr("Else as between the beat marks"));
    hasTempo->setChecked(start.midi.tempo.has_value());
    tempo = spinBox(slowestExport, fastestExport,
                    static_cast<int>(std::lround(start.midi.tempo.value_or(usualTempo))),
                    tr("Quarters a minute"));
    tempo->setPrefix(QStringLiteral("♩ = "));
    tempo->setEnabled(hasTempo->isChecked());
    connect(hasTempo, &QCheckBox::toggled, tempo, &QWidget::setEnabled);
    form->addRow(tr("Tempo"), tempoRow = widgetRow({hasTempo, tempo}));
}

void ExportDialog::addFile() {
    file = new FileField(
        start.file, tr("File, .musicxml, .mxl or .mid"), tr("Write the line for other programs"),
        {tr("MusicXML (*.musicxml)"), tr("Compressed MusicXML (*.mxl)"), tr("MIDI (*.mid)")});
    form->addRow(tr("&File"), file);
    connect(file, &FileField::changed, this, &ExportDialog::judge);
}

QString ExportDialog::ending() const {
    return textOf(file->path().extension());
}

void ExportDialog::endAsChosen() {
    std::filesystem::path named = file->path();
    // The ending of another kind goes; what merely looks like one, in "No. 3", is part of the name.
    if (kind->findData(ending()) >= 0) named.replace_extension();
    named += kind->currentData().toString().toStdString();
    file->setPath(named);
}

ExportChoices ExportDialog::choices() const {
    ExportChoices made = start;
    made.file = file->path();
    made.page.reading = chosenIn(*reading, readingChoices());
    made.page.places = strings->currentIndex() != noPlaces;
    made.page.tablature = strings->currentIndex() == partInTablature;
    made.page.degrees = degrees->isChecked();
    // Where this study has no recording, the wish is kept for the next.
    if (hasSound) made.asPlayed = playing->currentIndex() == asRecorded;
    if (playing->currentIndex() != asRecorded) made.midi.swings = playing->currentIndex() == swung;
    made.midi.tempo = hasTempo->isChecked() ? std::optional<double>(tempo->value()) : std::nullopt;
    return made;
}

void ExportDialog::judge() {
    const int named = kind->findData(ending());
    if (named >= 0) kind->setCurrentIndex(named);
    const bool isMidi = kind->currentData().toString() == QLatin1String(".mid");
    for (QWidget* one :
         {static_cast<QWidget*>(reading), static_cast<QWidget*>(strings), static_cast<QWidget*>(degrees)})
        form->setRowVisible(one, !isMidi);
    for (QWidget* one : {static_cast<QWidget*>(playing), tempoRow})
        form->setRowVisible(one, isMidi);
    const bool hasName = !file->path().stem().empty();
    trouble->setText(!hasName    ? tr("Name the file to write.")
                     : named < 0 ? tr("The file's name ends in .musicxml, .mxl or .mid.")
                                 : QString());
    trouble->setVisible(!trouble->text().isEmpty());
    writeButton->setEnabled(trouble->text().isEmpty());
}

void ExportDialog::accept() {
    if (!writeButton->isEnabled()) return;
    QDialog::accept();
    write(choices());
}

} // namespace earwright::ui
