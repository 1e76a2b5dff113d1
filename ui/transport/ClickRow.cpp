#include "ui/transport/ClickRow.h"

#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"
#include "ui/transport/SignedStepper.h"

#include <QHBoxLayout>
#include <QLabel>

namespace earwright::ui {

ClickRow::ClickRow(QWidget* parent)
    : QWidget(parent),
      clicks(new QuietButton(tr("clicks"), this)),
      levelStepper(new SignedStepper(tr("Loudness of the clicks in decibels"), softest, loudest, this)),
      countInStepper(new Stepper(tr("Beats counted in"),
                                 {0, mostCountIn, 0, [](int beats) { return QString::number(beats); },
                                  tr("Click to play without a count-in")},
                                 this)) {
    setAccessibleName(tr("Beat"));
    clicks->setCheckable(true);
    auto* before = new QLabel(tr("count in"), this);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(clicks);
    row->addWidget(levelStepper);
    row->addSpacing(spacing::medium);
    row->addWidget(before);
    row->addWidget(countInStepper);
    row->addStretch(1);
    // A click only asks; what is shown follows show().
    connect(clicks, &QAbstractButton::clicked, this, &ClickRow::clicksChosen);
    connect(levelStepper, &Stepper::chosen, this, &ClickRow::levelChosen);
    connect(countInStepper, &Stepper::chosen, this, &ClickRow::countInChosen);
    setHasBeats(false);
    show(false, 0, 0);
}

void ClickRow::show(bool audible, int decibels, int countIn) {
    clicks->setChecked(audible);
    levelStepper->setValue(decibels);
    countInStepper->setValue(countIn);
}

void ClickRow::setHasBeats(bool hasBeats) {
    setEnabled(hasBeats);
    const QString why = tr("Mark bars first: without them there is no beat to click");
    clicks->setToolTip(hasBeats ? tr("A click on every beat, higher on the first of a bar") : why);
    levelStepper->setToolTip(hasBeats ? tr("Clicks louder or softer, in decibels") : why);
    countInStepper->setToolTip(hasBeats ? tr("Beats clicked before the sound begins") : why);
}

} // namespace earwright::ui
