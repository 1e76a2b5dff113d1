#include "ui/transport/TuningLine.h"

#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Type.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace earwright::ui {

namespace {

/// What a tuning estimate may be off itself, and less than an ear tells apart.
constexpr int withinTune = 2;

QString offText(int cents) {
    if (std::abs(cents) <= withinTune) return TuningLine::tr("at concert pitch");
    return (cents < 0 ? TuningLine::tr("%1 cents flat") : TuningLine::tr("%1 cents sharp"))
        .arg(std::abs(cents));
}

} // namespace

TuningLine::TuningLine(QWidget* parent)
    : QWidget(parent),
      line(new QLabel(this)),
      lower(new QuietButton(QStringLiteral("−"), this)),
      playAt(new QuietButton(QString(), this)),
      higher(new QuietButton(QStringLiteral("+"), this)) {
    setAccessibleName(tr("Tuning of the record"));
    line->setFont(ui::font(TextStyle::Body));
    // As wide as the words it mostly has, so that little moves when they change.
    line->setMinimumWidth(QFontMetrics(line->font()).horizontalAdvance(tr("lowered by 00 cents")));
    playAt->setCheckable(true);
    lower->setAccessibleName(tr("Reference A lower"));
    higher->setAccessibleName(tr("Reference A higher"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(line);
    row->addSpacing(spacing::tight);
    for (QuietButton* button : {lower, playAt, higher}) {
        button->setSidePadding(spacing::tight);
        row->addWidget(button);
    }
    row->addStretch();
    for (QuietButton* sign : {lower, higher}) {
        sign->setAutoRepeat(true);
        sign->setToolTip(tr("The A your instrument is tuned to, in hertz"));
    }
    connect(lower, &QAbstractButton::clicked, this, [this] { stepReference(-1); });
    connect(higher, &QAbstractButton::clicked, this, [this] { stepReference(1); });
    connect(playAt, &QAbstractButton::clicked, this, &TuningLine::inTuneChosen);
    show();
}

void TuningLine::setTuning(std::optional<double> cents, double driftCents) {
    record = cents;
    drift = driftCents;
    show();
}

void TuningLine::setReference(const ReferenceA& given) {
    reference = given;
    show();
}

void TuningLine::setCents(int cents) {
    inUse = cents;
    show();
}

std::optional<TuningShift> TuningLine::shift() const {
    if (!record) return std::nullopt;
    return TuningShift::between(*record, reference);
}

bool TuningLine::isInTune() const {
    return record && shift()->total() != 0 && inUse == shift()->cents;
}

void TuningLine::stepReference(int by) {
    const int next = std::clamp(reference.hertz + by, ReferenceA::lowest, ReferenceA::highest);
    if (next != reference.hertz) emit referenceChosen({next});
}

void TuningLine::wheelEvent(QWheelEvent* event) {
    if (const int notches = wheel.take(event->angleDelta().y()); notches != 0) stepReference(notches);
    event->accept();
}

void TuningLine::show() {
    line->setText(text());
    line->setToolTip(
        drifts() ? tr("The record's pitch moves by %1 cents from its lowest to its highest, as tapes and "
                      "turntables do. Check and hints follow it; what you hear is not straightened.")
                       .arg(std::lround(drift))
                 : QString());
    playAt->setText(tr("play at %1").arg(reference.hertz));
    playAt->setAccessibleName(playAt->text());
    // A record that is at the reference by itself has nowhere to go.
    playAt->setEnabled(record && shift()->total() != 0);
    playAt->setChecked(isInTune());
    playAt->setToolTip(playAt->isEnabled()
                           ? tr("Moves the record by %1 cents, so that its A is %2 Hz and your instrument is "
                                "in tune with it")
                                 .arg(shift()->total())
                                 .arg(reference.hertz)
                           : tr("The A your instrument is tuned to, in hertz"));
    lower->setEnabled(reference.hertz > ReferenceA::lowest);
    higher->setEnabled(reference.hertz < ReferenceA::highest);
}

bool TuningLine::drifts() const {
    return record && std::lround(drift) > 0;
}

QString TuningLine::text() const {
    if (!record) return tr("not known yet");
    const int moved = isInTune() ? shift()->total() : 0;
    const QString where = !isInTune() ? offText(static_cast<int>(std::lround(*record)))
                          : moved > 0 ? tr("raised by %1 cents").arg(moved)
                                      : tr("lowered by %1 cents").arg(-moved);
    return drifts() ? tr("%1, drifts by %2").arg(where).arg(std::lround(drift)) : where;
}

} // namespace earwright::ui
