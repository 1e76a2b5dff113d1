#include "ui/desk/MeterDialog.h"

#include <QAbstractButton>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QSpinBox>

namespace earwright::ui {

namespace {

constexpr int mostBeats = 32;

} // namespace

MeterDialog::MeterDialog(const Meter& meter, QWidget* parent)
    : QDialog(parent), beats(new QSpinBox), unit(new QComboBox) {
    setWindowTitle(tr("Beats in a bar"));
    beats->setRange(1, mostBeats);
    beats->setValue(meter.beatsPerBar);
    for (const int note : {1, 2, 4, 8, 16, 32})
        unit->addItem(QString::number(note), note);
    unit->setCurrentIndex(unit->findData(meter.beatUnit));
    auto* about = new QLabel(tr("Bar lines already marked stay where they are."));
    about->setWordWrap(true);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    auto* form = new QFormLayout(this);
    form->addRow(tr("Beats in a bar"), beats);
    form->addRow(tr("A beat is one over"), unit);
    form->addRow(about);
    form->addRow(buttons);
    for (QAbstractButton* button : buttons->buttons())
        button->setIcon({});
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
}

Meter MeterDialog::meter() const {
    return {beats->value(), unit->currentData().toInt()};
}

} // namespace earwright::ui
