#include "ui/transport/TransportBar.h"

#include "ui/theme/PlaceText.h"
#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"
#include "ui/transport/DeviceLine.h"
#include "ui/transport/FocusRow.h"
#include "ui/transport/HearingRow.h"
#include "ui/transport/PlaceDisplay.h"
#include "ui/transport/PlayButton.h"
#include "ui/transport/SignedStepper.h"
#include "ui/transport/TuningLine.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QSlider>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>
#include <utility>

namespace earwright::ui {

namespace {

constexpr int levelSteps = 100;
constexpr int mostSemitones = 12;
constexpr int mostCents = 100;
/// Longer gaps between two looks are not listening: the machine slept, or the window hung.
constexpr double longestLook = 10;

} // namespace

TransportBar::TransportBar(QWidget* parent)
    : QWidget(parent),
      play(new PlayButton(this)),
      place(new PlaceDisplay(this)),
      hearing(new HearingRow(this)),
      picture(new FocusRow(this)),
      tuning(new TuningLine(this)),
      semitoneStepper(new SignedStepper(tr("Semitones"), mostSemitones, this)),
      centStepper(new SignedStepper(tr("Cents"), mostCents, this)),
      level(new QSlider(Qt::Horizontal, this)),
      device(new DeviceLine(this)),
      breakWord(
          new QuietButton(tr("You have listened for a long time: a short break does the ears good."), this)) {
    setAccessibleName(tr("Transport"));
    level->setRange(0, levelSteps);
    level->setAccessibleName(tr("Level"));
    level->setFocusPolicy(Qt::TabFocus);
    level->setFixedWidth(120);
    level->setToolTip(
        tr("Loud sound over a long time can harm your hearing. Keep the level comfortable and take "
           "breaks; follow the rules where you work, and ask a hearing professional when in doubt."));
    semitoneStepper->setToolTip(tr("Move the pitch by semitones"));
    centStepper->setToolTip(tr("Move the pitch by hundredths of a semitone"));
    breakWord->setTextStyle(TextStyle::Small);
    breakWord->setToolTip(tr("Click to put this away until after your next break"));
    breakWord->hide();
    buildLayout();
    connectParts();
    setLevel(0.7);
    setHasRecording(false);
}

QWidget* TransportBar::captioned(const QString& caption, QWidget* content, int indent) {
    auto* group = new QWidget(this);
    auto* title = new QLabel(caption, group);
    title->setFont(ui::font(TextStyle::Small));
    title->setForegroundRole(QPalette::PlaceholderText);
    title->setIndent(indent);
    // All groups are as high as a word to choose, so that captions stand on one line.
    content->setMinimumHeight(QuietButton(caption).sizeHint().height());
    auto* column = new QVBoxLayout(group);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(spacing::hair);
    column->addWidget(title);
    column->addWidget(content);
    return group;
}

QLayout* TransportBar::buildChoices() {
    // One under the other with their captions in front: side by side they would not fit a narrow window.
    auto* choices = new QGridLayout;
    choices->setHorizontalSpacing(spacing::small);
    choices->setVerticalSpacing(spacing::hair);
    int line = 0;
    for (const auto& [caption, words] :
         {std::pair<QString, QWidget*>{tr("hear"), hearing}, {tr("focus"), picture}}) {
        auto* title = new QLabel(caption, this);
        title->setFont(ui::font(TextStyle::Small));
        title->setForegroundRole(QPalette::PlaceholderText);
        choices->addWidget(title, line, 0);
        choices->addWidget(words, line++, 1);
    }
    return choices;
}

void TransportBar::buildLayout() {
    auto* row = new QHBoxLayout;
    row->setSpacing(spacing::large);
    row->addWidget(play);
    row->addSpacing(spacing::medium - spacing::large);
    row->addWidget(place);
    row->addStretch(1);
    row->addLayout(buildChoices());
    row->addStretch(1);
    row->addWidget(captioned(tr("semitones"), semitoneStepper, spacing::tight));
    row->addWidget(captioned(tr("cents"), centStepper, spacing::tight));
    row->addWidget(captioned(tr("tuning"), tuning, 0));
    row->addStretch(1);
    row->addWidget(captioned(tr("level"), level, 0));

    auto* foot = new QHBoxLayout;
    foot->addWidget(breakWord);
    foot->addWidget(device, 1);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(spacing::large, spacing::small, spacing::large, spacing::tight);
    column->setSpacing(spacing::hair);
    column->addLayout(row);
    column->addLayout(foot);
}

void TransportBar::connectParts() {
    connect(play, &QAbstractButton::clicked, this, &TransportBar::playPauseRequested);
    connect(hearing, &HearingRow::chosen, this, &TransportBar::hearingChosen);
    connect(picture, &FocusRow::chosen, this, &TransportBar::focusChosen);
    const auto chooseCents = [this](int cents) { emit playingChosen({inUse.speed, inUse.semitones, cents}); };
    connect(semitoneStepper, &SignedStepper::chosen, this, [this](int semitones) {
        emit playingChosen({inUse.speed, semitones, inUse.cents});
    });
    connect(centStepper, &SignedStepper::chosen, this, chooseCents);
    connect(tuning, &TuningLine::centsChosen, this, chooseCents);
    connect(level, &QSlider::valueChanged, this,
            [this](int value) { emit levelChosen(static_cast<double>(value) / levelSteps); });
    connect(device, &DeviceLine::tryAgainRequested, this, &TransportBar::tryDeviceAgainRequested);
    connect(device, &DeviceLine::choicesRequested, this, &TransportBar::deviceListRequested);
    connect(device, &DeviceLine::deviceChosen, this, &TransportBar::deviceChosen);
    connect(breakWord, &QAbstractButton::clicked, this, [this] {
        listening.putWordAway();
        breakWord->hide();
    });
}

void TransportBar::setStudy(std::shared_ptr<const Study> given) {
    study = std::move(given);
}

void TransportBar::setLength(Seconds given) {
    length = given;
}

void TransportBar::setHasRecording(bool hasRecording) {
    play->setEnabled(hasRecording);
    hearing->setEnabled(hasRecording);
}

void TransportBar::setHeard(Seconds now, bool playing) {
    play->setPlaying(playing);
    const bool hasBars = study && study->beatMap.hasTempo();
    // Counted on the half beat, so that the words can be read while they change.
    const auto halves =
        hasBars ? static_cast<std::int64_t>(std::floor(study->beatMap.beatsAt(now) * 2 + 1e-6)) : 0;
    place->showPlace(hasBars ? placeText(Beats(halves, 2), study->meter) : QString(), now, length);
    countListening(playing);
}

void TransportBar::countListening(bool playing) {
    if (sinceHeard.isValid()) {
        const double passed = static_cast<double>(sinceHeard.elapsed()) / 1000;
        listening.add(passed, playing && passed < longestLook);
    }
    sinceHeard.start();
    if (breakWord->isHidden() == listening.isBreakDue()) breakWord->setVisible(listening.isBreakDue());
}

void TransportBar::setHearing(Hearing chosen) {
    hearing->setHearing(chosen);
}

void TransportBar::showFocus(Focus focus) {
    picture->setChosen(focus);
}

void TransportBar::setIsStereo(bool isStereo) {
    picture->setIsStereo(isStereo);
}

void TransportBar::setPlaying(const Playing& playing) {
    inUse = playing;
    place->showSpeed(playing.speed);
    semitoneStepper->setValue(playing.semitones);
    centStepper->setValue(playing.cents);
    tuning->setCents(playing.cents);
}

void TransportBar::setTuning(std::optional<double> cents) {
    tuning->setTuning(cents);
}

void TransportBar::setLevel(double given) {
    const QSignalBlocker quiet(level);
    level->setValue(static_cast<int>(std::lround(std::clamp(given, 0.0, 1.0) * levelSteps)));
}

void TransportBar::setDevice(const DeviceReport& report) {
    device->setReport(report);
}

void TransportBar::offerDevices(const std::vector<DeviceChoice>& devices) {
    device->offer(devices);
}

void TransportBar::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), color(Role::Panel));
    painter.fillRect(QRectF(0, 0, width(), 1), color(Role::Rule));
}

} // namespace earwright::ui
