#include "ui/desk/StringsDialog.h"

#include <QComboBox>
#include <QCoreApplication>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSpinBox>

#include <algorithm>

namespace earwright::ui {

namespace {

/// Behind the tunings that have a name.
const int another = static_cast<int>(namedTunings().size());

int indexOf(const std::vector<int>& strings) {
    const auto& all = namedTunings();
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const NamedTuning& one) { return one.tuning.strings == strings; });
    return static_cast<int>(found - all.begin());
}

} // namespace

StringsDialog::StringsDialog(const StringTuning& now, Choose deed, QWidget* parent)
    : QDialog(parent), choose(std::move(deed)), fretsAreFor(now.strings.size()) {
    setWindowTitle(tr("Strings and tuning"));
    named = new QComboBox;
    for (const NamedTuning& one : namedTunings())
        named->addItem(QCoreApplication::translate("Tunings", one.name.c_str()));
    named->addItem(tr("Another tuning"));
    strings = new QLineEdit(QString::fromStdString(writtenStrings(now.strings)));
    frets = new QSpinBox;
    frets->setRange(1, mostFrets);
    frets->setValue(now.frets);
    capo = new QSpinBox;
    capo->setRange(0, mostFrets - 1);
    capo->setSpecialValueText(tr("none"));
    capo->setValue(now.capo);
    about = new QLabel;
    about->setWordWrap(true);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    ok = buttons->button(QDialogButtonBox::Ok);
    auto* form = new QFormLayout(this);
    form->addRow(tr("&Tuning"), named);
    form->addRow(tr("&Strings, lowest first"), strings);
    form->addRow(tr("&Frets"), frets);
    form->addRow(tr("&Capo on fret"), capo);
    form->addRow(about);
    form->addRow(buttons);
    connect(named, &QComboBox::activated, this, &StringsDialog::takeNamed);
    connect(strings, &QLineEdit::textChanged, this, &StringsDialog::judge);
    connect(frets, &QSpinBox::valueChanged, this, &StringsDialog::judge);
    connect(capo, &QSpinBox::valueChanged, this, &StringsDialog::judge);
    connect(buttons, &QDialogButtonBox::accepted, this, &StringsDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    resize(440, sizeHint().height());
    judge();
}

void StringsDialog::takeNamed(int index) {
    if (index == another) return strings->setFocus();
    const StringTuning& chosen = namedTunings()[static_cast<std::size_t>(index)].tuning;
    // An instrument of more or fewer frets stays one where only its strings are tuned otherwise.
    if (chosen.strings.size() != fretsAreFor) frets->setValue(chosen.frets);
    fretsAreFor = chosen.strings.size();
    strings->setText(QString::fromStdString(writtenStrings(chosen.strings)));
}

std::optional<StringTuning> StringsDialog::tuning() const {
    const auto read = readStrings(strings->text().toStdString());
    if (!read) return std::nullopt;
    const StringTuning made{*read, frets->value(), capo->value()};
    return isPlayable(made) ? std::optional(made) : std::nullopt;
}

QString StringsDialog::reading(const StringTuning& made) const {
    return tr("Read as %1; the last is drawn on top.")
        .arg(QString::fromStdString(writtenStrings(made.strings)));
}

void StringsDialog::judge() {
    const auto made = tuning();
    ok->setEnabled(made.has_value());
    named->setCurrentIndex(made ? indexOf(made->strings) : another);
    if (made) return about->setText(reading(*made));
    about->setText(readStrings(strings->text().toStdString())
                       ? tr("The capo has to lie below the last fret.")
                       : tr("Type one to eight notes from the lowest string up, such as E A D G B E, or with "
                            "octaves, such as B0 E1 A1 D2 G2."));
}

void StringsDialog::accept() {
    const auto made = tuning();
    if (!made) return;
    QDialog::accept();
    choose(*made);
}

} // namespace earwright::ui
