#include "ui/transport/TuningLine.h"

#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Type.h"

#include <QHBoxLayout>
#include <QLabel>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace earwright::ui {

namespace {

constexpr int mostCents = 100;
/// What a tuning estimate may be off itself, and less than an ear tells apart.
constexpr int withinTune = 2;

} // namespace

TuningLine::TuningLine(QWidget* parent)
    : QWidget(parent), line(new QLabel(this)), match(new QuietButton(tr("match"), this)) {
    setAccessibleName(tr("Tuning of the record"));
    line->setFont(ui::font(TextStyle::Body));
    match->setCheckable(true);
    match->setToolTip(tr("Move the record to concert pitch, so that your instrument is in tune with it"));
    // As wide as its longer word, so that nothing moves when it changes.
    match->setFixedWidth(QuietButton(tr("matched")).sizeHint().width());
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(spacing::tight);
    row->addWidget(line);
    row->addWidget(match);
    row->addStretch();
    connect(match, &QAbstractButton::clicked, this, [this](bool matched) {
        emit centsChosen(matched && record ? std::clamp(-*record, -mostCents, mostCents) : 0);
    });
    show();
}

void TuningLine::setTuning(std::optional<double> cents) {
    record = cents ? std::optional(static_cast<int>(std::lround(*cents))) : std::nullopt;
    if (record && std::abs(*record) <= withinTune) record = 0;
    show();
}

void TuningLine::setCents(int cents) {
    inUse = cents;
    show();
}

void TuningLine::show() {
    line->setText(text());
    const bool canMatch = record && *record != 0;
    match->setVisible(canMatch);
    const bool matched = canMatch && inUse == -*record;
    match->setText(matched ? tr("matched") : tr("match"));
    match->setAccessibleName(match->text());
    match->setChecked(matched);
}

QString TuningLine::text() const {
    if (!record) return tr("not known yet");
    if (*record == 0) return tr("record is at concert pitch");
    return (*record < 0 ? tr("record is %1 cents flat") : tr("record is %1 cents sharp"))
        .arg(std::abs(*record));
}

} // namespace earwright::ui
