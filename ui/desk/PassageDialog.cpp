#include "ui/desk/PassageDialog.h"

#include "core/study/PageOrder.h"
#include "ui/theme/PassageText.h"
#include "ui/theme/PlaceText.h"
#include "ui/theme/SpinBox.h"
#include "ui/theme/WidgetRow.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QSignalBlocker>
#include <QSpinBox>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr int mostBeats = 32;
constexpr int mostBars = 10'000;

StatedTempo tempoAt(const Study& study, std::int64_t bar) {
    const Beats start = study.meters().barStart(bar);
    for (const TempoMark& mark : study.page.tempos)
        if (mark.at == start) return {mark.words, mark.quartersPerMinute};
    return {};
}

StatedRepeat repeatAt(const Study& study, std::int64_t bar) {
    for (const Repeat& repeat : study.page.repeats)
        if (repeat.firstBar <= bar && bar <= repeat.lastBar) return {repeat.times, repeat.endingBars};
    return {};
}

} // namespace

PassageDialog::PassageDialog(const Study& study, std::int64_t firstBar, std::optional<std::int64_t> bars,
                             Subject subject, Apply wish, QWidget* parent)
    : QDialog(parent),
      apply(std::move(wish)),
      bar(firstBar),
      meter(study.meters().at(firstBar)),
      key(study.page.keyAt(firstBar)),
      swing(study.page.swingAt(study.meters().barStart(firstBar))),
      tempo(tempoAt(study, firstBar)),
      repeat(repeatAt(study, firstBar)),
      pickup{study.page.pickup} {
    setWindowTitle(tr("From %1").arg(barText(bar)));
    auto* form = new QFormLayout(this);
    addPassage(*form, bars);
    addMeter(*form);
    addKey(*form);
    addSwing(*form);
    addTempo(*form);
    addRepeat(*form);
    if (bar == 1) addPickup(*form);
    auto* about = new QLabel(tr("Notes and marks stay with the sound. A repeat shows on the page only."));
    about->setWordWrap(true);
    form->addRow(about);
    refusal = new QLabel;
    refusal->setWordWrap(true);
    refusal->hide();
    form->addRow(refusal);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    form->addRow(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &PassageDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    fieldOf(subject)->setFocus();
}

void PassageDialog::addPassage(QFormLayout& form, std::optional<std::int64_t> bars) {
    limited = new QCheckBox(tr("only this many bars:"));
    limited->setChecked(bars.has_value());
    barCount = spinBox(1, mostBars, static_cast<int>(bars.value_or(1)), tr("Number of bars"));
    barCount->setEnabled(bars.has_value());
    connect(limited, &QCheckBox::toggled, barCount, &QWidget::setEnabled);
    form.addRow(tr("From %1").arg(barText(bar)), widgetRow({limited, barCount}));
}

void PassageDialog::addMeter(QFormLayout& form) {
    beats = spinBox(1, mostBeats, meter.beatsPerBar, tr("Beats in a bar"));
    unit = new QComboBox;
    unit->setAccessibleName(tr("What a beat is"));
    for (const int note : {1, 2, 4, 8, 16, 32})
        unit->addItem(QString::number(note), note);
    unit->setCurrentIndex(unit->findData(meter.beatUnit));
    form.addRow(tr("Meter"), widgetRow({beats, new QLabel(QStringLiteral("/")), unit}));
}

void PassageDialog::addKey(QFormLayout& form) {
    keys = new QComboBox;
    for (const Mode mode : {Mode::Major, Mode::Minor})
        for (int fifths = -mostFifths; fifths <= mostFifths; ++fifths) {
            const KeySignature each{fifths, mode};
            keys->addItem(keyText(each), QPoint(fifths, static_cast<int>(mode)));
        }
    keys->setCurrentIndex(keys->findText(keyText(key)));
    form.addRow(tr("Key"), keys);
}

void PassageDialog::addSwing(QFormLayout& form) {
    ratio = new QDoubleSpinBox;
    ratio->setRange(leastSwing, mostSwing);
    ratio->setDecimals(2);
    ratio->setSingleStep(0.1);
    ratio->setValue(swing.ratio);
    shownRatio = ratio->value();
    ratio->setSuffix(tr(" : 1"));
    ratio->setAccessibleName(tr("How they swing"));
    ratio->setToolTip(tr("The first of two such notes to the second: 1 is even, 2 the triplet feel"));
    swingNotes = new QComboBox;
    swingNotes->setAccessibleName(tr("Notes that swing"));
    swingNotes->addItem(tr("eighths"), 8);
    swingNotes->addItem(tr("sixteenths"), 16);
    swingNotes->setCurrentIndex(swingNotes->findData(swing.noteValue));
    form.addRow(tr("Swing"), widgetRow({ratio, swingNotes}));
}

void PassageDialog::addTempo(QFormLayout& form) {
    words = new QLineEdit(QString::fromStdString(tempo.words));
    words->setPlaceholderText(tr("Medium blues"));
    words->setAccessibleName(tr("Tempo in words"));
    const int least = static_cast<int>(slowestTempo) - 1;
    const int stated = static_cast<int>(std::lround(tempo.quartersPerMinute.value_or(least)));
    figure = spinBox(least, static_cast<int>(fastestTempo), stated, tr("Quarters a minute"));
    figure->setSpecialValueText(tr("none"));
    figure->setPrefix(QStringLiteral("♩ = "));
    form.addRow(tr("Tempo"), widgetRow({words, figure}));
}

void PassageDialog::addRepeat(QFormLayout& form) {
    times = spinBox(1, mostTimes, repeat.times, tr("Times played on the page"));
    times->setSpecialValueText(tr("not repeated"));
    times->setSuffix(tr(" times"));
    endingBars = spinBox(0, mostEndingBars, repeat.endingBars, tr("Bars under the first ending"));
    endingBars->setSpecialValueText(tr("no endings"));
    endingBars->setPrefix(tr("first ending: "));
    form.addRow(tr("Repeat"), widgetRow({times, endingBars}));
}

void PassageDialog::addPickup(QFormLayout& form) {
    pickupBeats = new QDoubleSpinBox;
    pickupBeats->setDecimals(2);
    pickupBeats->setSingleStep(0.5);
    pickupBeats->setSpecialValueText(tr("as long as its notes"));
    pickupBeats->setAccessibleName(tr("Length of the pickup"));
    pickupBeats->setToolTip(
        tr("How long the bar before bar 1 is on the page; notes before it make it longer"));
    wantedPickup = pickup.length.value_or(Beats(0)).toDouble();
    fitPickup();
    wantedPickup = shownPickup = pickupBeats->value();
    connect(pickupBeats, &QDoubleSpinBox::valueChanged, this, [this](double value) { wantedPickup = value; });
    connect(beats, &QSpinBox::valueChanged, this, &PassageDialog::fitPickup);
    connect(unit, &QComboBox::currentIndexChanged, this, &PassageDialog::fitPickup);
    form.addRow(tr("Pickup"), pickupBeats);
}

/// A pickup is counted in the beats of the meter above, and no longer than a bar of it. What the user wished
/// comes back where a number of beats was only on its way to another.
void PassageDialog::fitPickup() {
    const QSignalBlocker byItself(pickupBeats);
    pickupBeats->setRange(0, beats->value());
    pickupBeats->setValue(wantedPickup);
    pickupBeats->setSuffix(QStringLiteral(" × 1/%1").arg(unit->currentData().toInt()));
}

std::optional<StatedPickup> PassageDialog::changedPickup() const {
    if (!pickupBeats || wantedPickup == shownPickup) return std::nullopt;
    if (pickupBeats->value() == 0) return StatedPickup{};
    // The field shows two decimals: 0.13 stands for the eighth part of a beat.
    constexpr double shownTo = 0.005;
    const double typed = pickupBeats->value();
    const Beats written = Beats::nearest(typed, std::max(32 / unit->currentData().toInt(), 1));
    const bool isMeant = std::abs(written.toDouble() - typed) <= shownTo;
    return StatedPickup{isMeant ? written : Beats::nearest(typed, 100)};
}

std::optional<Swing> PassageDialog::changedSwing() const {
    // The field shows hundredths: 5 to 3 is not altered by being looked at.
    const bool isRatioKept = ratio->value() == shownRatio;
    const Swing wanted{isRatioKept ? swing.ratio : ratio->value(), swingNotes->currentData().toInt()};
    // Which notes would be even is nothing that could be heard or seen.
    const bool isStillEven = wanted.isEven() && swing.isEven();
    return wanted == swing || isStillEven ? std::nullopt : std::optional(wanted);
}

QWidget* PassageDialog::fieldOf(Subject subject) const {
    switch (subject) {
    case Subject::Meter:
        return beats;
    case Subject::Key:
        return keys;
    case Subject::Swing:
        return ratio;
    case Subject::Tempo:
        return words;
    case Subject::Repeat:
        return times;
    case Subject::Pickup:
        return pickupBeats ? static_cast<QWidget*>(pickupBeats) : beats;
    }
    return beats;
}

PassageChange PassageDialog::change() const {
    PassageChange wanted;
    wanted.firstBar = bar;
    if (limited->isChecked()) wanted.bars = barCount->value();
    const Meter newMeter{beats->value(), unit->currentData().toInt()};
    if (newMeter != meter) wanted.meter = newMeter;
    const QPoint chosen = keys->currentData().toPoint();
    const KeySignature newKey{chosen.x(), static_cast<Mode>(chosen.y())};
    if (newKey != key) wanted.key = newKey;
    wanted.swing = changedSwing();
    StatedTempo newTempo{words->text().trimmed().toStdString(), tempo.quartersPerMinute};
    if (figure->value() != std::lround(tempo.quartersPerMinute.value_or(figure->minimum())))
        newTempo.quartersPerMinute =
            figure->value() == figure->minimum() ? std::nullopt : std::optional<double>(figure->value());
    if (newTempo != tempo) wanted.tempo = newTempo;
    const StatedRepeat newRepeat{times->value(), endingBars->value()};
    if (newRepeat != repeat) wanted.repeat = newRepeat;
    wanted.pickup = changedPickup();
    return wanted;
}

void PassageDialog::accept() {
    const std::optional<QString> why = apply(change());
    if (!why) return QDialog::accept();
    refusal->setText(*why);
    refusal->show();
}

} // namespace earwright::ui
