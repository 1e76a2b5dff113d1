#include "ui/desk/SheetDialog.h"

#include "ui/desk/FileField.h"
#include "ui/page/ChoiceBox.h"
#include "ui/page/SheetFile.h"
#include "ui/theme/PlaceText.h"
#include "ui/theme/Spacing.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSpinBox>
#include <QTableWidget>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr int nameColumn = 0;
constexpr int barsColumn = 1;
constexpr int wordsColumn = 2;

QCheckBox* check(const QString& text, bool isOn) {
    auto* box = new QCheckBox(text);
    box->setChecked(isOn);
    return box;
}

QString barsOf(const Study& study, const Span& phrase) {
    const Range<Beats> beats = study.beatsOf(phrase);
    const MeterMap meters = study.meters();
    const std::int64_t first = meters.barOf(beats.begin);
    const std::int64_t last = meters.barOf(beats.end);
    return barsText(first, std::max(first, meters.barStart(last) == beats.end ? last - 1 : last));
}

QTableWidgetItem* item(const QString& text, Qt::ItemFlags flags) {
    auto* made = new QTableWidgetItem(text);
    made->setFlags(flags);
    return made;
}

} // namespace

SheetDialog::SheetDialog(std::shared_ptr<const Study> shown, const SheetChoices& start, bool isSounding,
                         Write deed, QWidget* parent)
    : QDialog(parent), study(std::move(shown)), write(std::move(deed)), hasSound(isSounding) {
    setWindowTitle(tr("Example sheet"));
    title = new QLineEdit(QString::fromStdString(start.wish.title.value_or(study->title)));
    auto* heading = new QFormLayout;
    heading->addRow(tr("&Title"), title);
    auto* look = new QFormLayout;
    addLook(*look, start.wish);
    addSound(*look, start);
    auto* aside = new QVBoxLayout;
    aside->addWidget(showPart(start.wish));
    aside->addLayout(look);
    aside->addStretch(1);
    auto* middle = new QHBoxLayout;
    middle->setSpacing(spacing::large);
    middle->addWidget(phrasesPart(), 1);
    middle->addLayout(aside);
    fillPhrases(start.wish);
    auto* target = new QFormLayout;
    addFile(*target, start.file);
    trouble = new QLabel;
    trouble->setWordWrap(true);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
    writeButton = buttons->addButton(tr("&Write"), QDialogButtonBox::AcceptRole);
    auto* column = new QVBoxLayout(this);
    column->addLayout(heading);
    column->addLayout(middle, 1);
    column->addLayout(target);
    column->addWidget(trouble);
    column->addWidget(buttons);
    // Once it is in its dialog, and beside no other that Enter could press.
    buttons->button(QDialogButtonBox::Cancel)->setAutoDefault(false);
    writeButton->setDefault(true);
    connect(buttons, &QDialogButtonBox::accepted, this, &SheetDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    resize(760, 480);
    judge();
}

QWidget* SheetDialog::phrasesPart() {
    phrases = new QTableWidget(0, 3);
    phrases->setAccessibleName(tr("Phrases on the sheet"));
    phrases->setHorizontalHeaderLabels({tr("Phrase"), tr("Bars"), tr("Line of text")});
    phrases->verticalHeader()->hide();
    phrases->horizontalHeader()->setStretchLastSection(true);
    phrases->horizontalHeader()->setHighlightSections(false);
    phrases->setSelectionMode(QAbstractItemView::SingleSelection);
    phrases->setEditTriggers(QAbstractItemView::AllEditTriggers);
    phrases->setTabKeyNavigation(false);
    connect(phrases, &QTableWidget::itemChanged, this, &SheetDialog::judge);
    return phrases;
}

void SheetDialog::fillPhrases(const ExampleWish& wish) {
    const QSignalBlocker quiet(phrases);
    rows = examplesOf(*study, {});
    phrases->setRowCount(static_cast<int>(rows.size()));
    const std::vector<SpanId> chosen = examplesOf(*study, wish);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const Span& phrase = *study->span(rows[i]);
        const int row = static_cast<int>(i);
        auto* name = item(QString::fromStdString(phrase.name),
                          Qt::ItemIsUserCheckable | Qt::ItemIsEnabled | Qt::ItemIsSelectable);
        const bool isChosen = std::find(chosen.begin(), chosen.end(), phrase.id) != chosen.end();
        name->setCheckState(isChosen ? Qt::Checked : Qt::Unchecked);
        phrases->setItem(row, nameColumn, name);
        phrases->setItem(row, barsColumn,
                         item(barsOf(*study, phrase), Qt::ItemIsEnabled | Qt::ItemIsSelectable));
        const auto words = wish.words.find(phrase.id);
        phrases->setItem(row, wordsColumn,
                         item(words == wish.words.end() ? QString() : QString::fromStdString(words->second),
                              Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsEditable));
    }
    phrases->resizeColumnsToContents();
    // Without phrases the whole line is the example.
    phrases->setVisible(!rows.empty());
}

QWidget* SheetDialog::showPart(const ExampleWish& wish) {
    auto* part = new QWidget;
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(0, 0, 0, spacing::small);
    column->setSpacing(spacing::tight);
    column->addWidget(chords = check(tr("C&hord symbols"), wish.chordSymbols));
    column->addWidget(staff = check(tr("Staff of f&ive lines"), wish.staff));
    column->addWidget(tablature = check(tr("Ta&blature"), wish.tablature));
    column->addWidget(degrees = check(tr("&Degrees on the chords"), wish.degrees));
    column->addWidget(tempo = check(tr("T&empo"), wish.tempo));
    column->addWidget(slashes = check(tr("S&lashes where nothing is written"), wish.slashes));
    for (const QCheckBox* one : {staff, tablature})
        connect(one, &QCheckBox::toggled, this, &SheetDialog::judge);
    return part;
}

void SheetDialog::addLook(QFormLayout& form, const ExampleWish& wish) {
    form.addRow(tr("&Notes"), reading = choiceBox(readingChoices(), wish.reading));
    form.addRow(tr("&Clef"), clef = choiceBox(clefChoices(), wish.clef));
    bars = new QSpinBox;
    bars->setRange(1, mostBarsOfLine);
    bars->setValue(wish.barsPerLine);
    form.addRow(tr("B&ars to a line"), bars);
    paper = new QComboBox;
    paper->addItems({tr("A4"), tr("Letter")});
    paper->setCurrentIndex(wish.paper.width == letterPaper.width ? 1 : 0);
    form.addRow(tr("&Paper"), paper);
}

void SheetDialog::addSound(QFormLayout& form, const SheetChoices& start) {
    sound = check(tr("&Sound of each example"), start.sound && hasSound);
    sound->setEnabled(hasSound);
    soundWished = start.sound;
    sound->setToolTip(hasSound
                          ? tr("Beside the sheet, named after it: the record, the record at this speed, and "
                               "the written notes")
                          : tr("There is no recording whose bars are marked"));
    speed = new QSpinBox;
    speed->setRange(slowestPercent, fastestPercent);
    speed->setSingleStep(5);
    speed->setSuffix(QStringLiteral(" %"));
    speed->setValue(static_cast<int>(std::lround(start.speed * 100)));
    speed->setEnabled(sound->isChecked());
    form.addRow(sound);
    form.addRow(tr("and slowe&r, at"), speed);
    connect(sound, &QCheckBox::toggled, speed, &QWidget::setEnabled);
}

void SheetDialog::addFile(QFormLayout& form, const std::filesystem::path& start) {
    file = new FileField(start, tr("File, .pdf, .svg or .png"), tr("Write the example sheet"),
                         {tr("Pages (*.pdf)"), tr("Drawings (*.svg)"), tr("Pictures (*.png)")});
    form.addRow(tr("&File"), file);
    connect(file, &FileField::changed, this, &SheetDialog::judge);
}

std::vector<SpanId> SheetDialog::chosenPhrases() const {
    std::vector<SpanId> chosen;
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (phrases->item(static_cast<int>(i), nameColumn)->checkState() == Qt::Checked)
            chosen.push_back(rows[i]);
    return chosen;
}

SheetChoices SheetDialog::choices() const {
    SheetChoices made;
    ExampleWish& wish = made.wish;
    // What is as the study has it goes on following the study.
    if (const std::string words = title->text().trimmed().toStdString(); words != study->title)
        wish.title = words;
    if (std::vector<SpanId> chosen = chosenPhrases(); chosen.size() < rows.size())
        wish.phrases = std::move(chosen);
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (const QString words = phrases->item(static_cast<int>(i), wordsColumn)->text().trimmed();
            !words.isEmpty())
            wish.words[rows[i]] = words.toStdString();
    wish.chordSymbols = chords->isChecked();
    wish.staff = staff->isChecked();
    wish.tablature = tablature->isChecked();
    wish.degrees = degrees->isChecked();
    wish.tempo = tempo->isChecked();
    wish.slashes = slashes->isChecked();
    wish.reading = chosenIn(*reading, readingChoices());
    wish.clef = chosenIn(*clef, clefChoices());
    wish.barsPerLine = bars->value();
    wish.paper = paper->currentIndex() == 1 ? letterPaper : a4Paper;
    made.sound = sound->isEnabled() ? sound->isChecked() : soundWished;
    made.speed = speed->value() / 100.0;
    made.file = file->path();
    return made;
}

QString SheetDialog::hindrance() const {
    if (!rows.empty() && chosenPhrases().empty()) return tr("Choose at least one phrase.");
    if (!staff->isChecked() && !tablature->isChecked()) return tr("Choose the staff, the tablature or both.");
    const std::filesystem::path target = file->path();
    if (target.stem().empty()) return tr("Name the file to write.");
    if (!sheetFiles(target, 1)) return tr("The file's name ends in .pdf, .svg or .png.");
    return {};
}

void SheetDialog::judge() {
    const QString reason = hindrance();
    trouble->setText(reason.isEmpty() && rows.empty()
                         ? tr("No phrases are named, so the whole written line is the example.")
                         : reason);
    writeButton->setEnabled(reason.isEmpty());
}

void SheetDialog::accept() {
    // What is still being typed in the list counts.
    phrases->setCurrentItem(nullptr);
    if (!hindrance().isEmpty()) return judge();
    QDialog::accept();
    write(choices());
}

} // namespace earwright::ui
