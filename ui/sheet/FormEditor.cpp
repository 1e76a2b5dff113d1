#include "ui/sheet/FormEditor.h"

#include "core/music/NoChord.h"
#include "ui/theme/SpinBox.h"
#include "ui/theme/WidgetRow.h"

#include <QCheckBox>
#include <QDialogButtonBox>
#include <QLabel>
#include <QPlainTextEdit>
#include <QSpinBox>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

/// Bars from bar 1 to the end of the recording; a last one that breaks off near its end is one of them.
std::int64_t barsInRecording(const Study& study) {
    constexpr double breaksOff = 0.25;
    if (!study.beatMap.hasTempo()) return 0;
    const Seconds end = study.recording.rate.seconds(study.recording.length);
    return std::llround(std::floor(study.meters().barsAt(study.beatMap.beatsAt(end)) + breaksOff));
}

} // namespace

FormEditor::FormEditor(const Study& study, QWidget* parent)
    : QDialog(parent),
      meter(study.meter),
      isAnyLaidOut(!study.chorusBars().empty()),
      canLayOut(study.beatMap.hasTempo()),
      barsToEnd(barsInRecording(study)),
      layOutFollows(canLayOut && !isAnyLaidOut),
      chorusesFollow(!isAnyLaidOut) {
    setWindowTitle(tr("Form"));
    resize(560, 340);
    build(study);
    setText(QString::fromStdString(toText(study.chart.form, study.meter)));
}

void FormEditor::build(const Study& study) {
    form = new QPlainTextEdit;
    form->setPlaceholderText(QStringLiteral("Bb7 | Eb7 | Bb7 | Fm7 Bb7"));
    form->setAccessibleName(tr("Chords of one chorus"));
    form->setTabChangesFocus(true);
    read = new QLabel;
    read->setWordWrap(true);
    auto* about =
        new QLabel(tr("The chords of one chorus, bars between strokes. They stand over every chorus; "
                      "a single bar can be given others on the sheet. % repeats the bar before."));
    about->setWordWrap(true);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    auto* column = new QVBoxLayout(this);
    column->addWidget(about);
    column->addWidget(form, 1);
    column->addWidget(read);
    column->addWidget(buildLayout(study));
    column->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(form, &QPlainTextEdit::textChanged, this, &FormEditor::showReading);
}

QWidget* FormEditor::buildLayout(const Study& study) {
    const auto now = study.chorusBars();
    layOut = new QCheckBox(tr("Lay out"));
    choruses = spinBox(1, 200, now.empty() ? 1 : static_cast<int>(now.size()), tr("Number of choruses"));
    barCount =
        spinBox(1, 400, now.empty() ? 12 : static_cast<int>(now.front().barCount), tr("Bars in a chorus"));
    firstBar = spinBox(-400, 4000, now.empty() ? 1 : static_cast<int>(now.front().firstBar), tr("First bar"));
    QWidget* row = widgetRow({layOut, choruses, new QLabel(tr("choruses of")), barCount,
                              new QLabel(tr("bars from bar")), firstBar});
    connect(layOut, &QCheckBox::toggled, this, [this] {
        layOutFollows = false;
        showReading();
    });
    connect(barCount, &QSpinBox::valueChanged, this, [this] {
        barsFollow = false;
        followText();
    });
    connect(firstBar, &QSpinBox::valueChanged, this, &FormEditor::followText);
    connect(choruses, &QSpinBox::valueChanged, this, [this] { chorusesFollow = false; });
    row->setEnabled(canLayOut);
    row->setToolTip(canLayOut ? QString() : tr("Mark two bars first."));
    return row;
}

QString FormEditor::text() const {
    return form->toPlainText();
}

void FormEditor::setText(const QString& chords) {
    form->setPlainText(chords);
    showReading();
}

std::optional<FormEditor::Layout> FormEditor::chorusLayout() const {
    if (!layOut->isChecked()) return std::nullopt;
    return Layout{firstBar->value(), barCount->value(), choruses->value()};
}

void FormEditor::setChorusLayout(const Layout& layout) {
    layOut->setChecked(true);
    layOutFollows = barsFollow = chorusesFollow = false;
    firstBar->setValue(static_cast<int>(layout.firstBar));
    barCount->setValue(static_cast<int>(layout.barCount));
    choruses->setValue(layout.count);
}

QString FormEditor::reading() const {
    const auto bars = parseBars(text().toStdString(), meter);
    QStringList unread;
    for (const BarChords& bar : bars)
        for (const PlacedChord& chord : bar.chords)
            if (!isRead(chord.symbol)) unread << QString::fromStdString(chord.symbol.text);
    QString sentence = bars.size() == 1 ? tr("1 bar.") : tr("%1 bars.").arg(bars.size());
    unread.removeDuplicates();
    if (!unread.isEmpty())
        sentence += tr(" Kept as typed, since it cannot be read: %1.").arg(unread.join(", "));
    if (bars.empty() || isAnyLaidOut || layOut->isChecked()) return sentence;
    return sentence + (canLayOut ? tr(" They show nowhere until a chorus is laid out.")
                                 : tr(" They show once two bars are marked and a chorus is laid out."));
}

void FormEditor::showReading() {
    followText();
    for (QSpinBox* box : {choruses, barCount, firstBar})
        box->setEnabled(layOut->isChecked());
    read->setText(reading());
}

void FormEditor::followText() {
    const auto bars = static_cast<int>(parseBars(text().toStdString(), meter).size());
    const QSignalBlocker ownLayOut(layOut);
    if (layOutFollows) layOut->setChecked(bars > 0);
    const QSignalBlocker ownBars(barCount);
    const QSignalBlocker ownChoruses(choruses);
    if (barsFollow && bars > 0) barCount->setValue(bars);
    const std::int64_t room = barsToEnd - firstBar->value() + 1;
    if (chorusesFollow)
        choruses->setValue(static_cast<int>(std::max<std::int64_t>(room / barCount->value(), 1)));
}

} // namespace earwright::ui
