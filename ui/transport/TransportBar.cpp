#include "ui/transport/TransportBar.h"

#include "ui/theme/PlaceText.h"
#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"
#include "ui/transport/BandRow.h"
#include "ui/transport/ClickRow.h"
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
      balanceStepper(new SignedStepper(tr("Loudness of yours in decibels"), Engine::softestYours,
                                       Engine::loudestYours, this)),
      asPlayed(new QuietButton(tr("as played"), this)),
      picture(new FocusRow(this)),
      band(new BandRow(this)),
      tuning(new TuningLine(this)),
      semitoneStepper(new SignedStepper(tr("Semitones"), mostSemitones, this)),
      centStepper(new SignedStepper(tr("Cents"), mostCents, this)),
      clicks(new ClickRow(this)),
      level(new QSlider(Qt::Horizontal, this)),
      heldBack(new QLabel(tr("▲ held back"), this)),
      device(new DeviceLine(this)),
      chooseDevice(new QuietButton(tr("sound device…"), this)),
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
    balanceStepper->setToolTip(tr("The written notes louder or softer than the record, in decibels"));
    asPlayed->setCheckable(true);
    asPlayed->setToolTip(tr("The written notes as the record plays them: early or late, short, soft or loud; "
                            "else as written, on the grid"));
    heldBack->setFont(ui::font(TextStyle::Small));
    heldBack->setToolTip(tr("Too loud to sound clean: the peaks are being held back. Turn the level down."));
    setHeldBack(false);
    semitoneStepper->setToolTip(tr("Move the pitch by semitones"));
    centStepper->setToolTip(tr("Move the pitch by hundredths of a semitone"));
    chooseDevice->setTextStyle(TextStyle::Small);
    chooseDevice->setSidePadding(0);
    breakWord->setTextStyle(TextStyle::Small);
    breakWord->setToolTip(tr("Click to put this away until after your next break"));
    breakWord->hide();
    buildLayout();
    connectParts();
    setLevel(0.7);
    setHasRecording(false);
}

QLabel* TransportBar::caption(const QString& text) {
    auto* title = new QLabel(text, this);
    title->setFont(ui::font(TextStyle::Small));
    title->setForegroundRole(QPalette::PlaceholderText);
    return title;
}

void TransportBar::addLine(QGridLayout& grid, int line, int column, const QString& text, QLayout* parts) {
    grid.addWidget(caption(text), line, column);
    grid.addLayout(parts, line, column + 1);
}

void TransportBar::buildLevel(QGridLayout& grid, int column) {
    auto* words = new QHBoxLayout;
    words->setSpacing(spacing::small);
    words->addWidget(caption(tr("level")));
    words->addWidget(heldBack);
    words->addStretch(1);
    grid.addLayout(words, 0, column);
    grid.addWidget(level, 1, column);
    grid.addWidget(chooseDevice, 2, column, Qt::AlignLeft);
}

void TransportBar::buildLayout() {
    const auto line = [](std::initializer_list<QWidget*> parts) {
        auto* row = new QHBoxLayout;
        row->setSpacing(spacing::tight);
        for (QWidget* part : parts)
            row->addWidget(part);
        row->addStretch(1);
        return row;
    };
    // Three lines with their captions in front: side by side all this would not fit a narrow window.
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(spacing::small);
    grid->setVerticalSpacing(0);
    QLabel* yoursCaption = caption(tr("yours"));
    yoursCaption->setIndent(spacing::small);
    QLabel* playedCaption = caption(tr("yours"));
    playedCaption->setIndent(spacing::small);
    addLine(*grid, 0, 0, tr("hear"), line({hearing, yoursCaption, balanceStepper}));
    addLine(*grid, 1, 0, tr("focus"), line({picture, playedCaption, asPlayed}));
    addLine(*grid, 2, 0, tr("band"), line({band}));
    addLine(*grid, 0, 3, tr("pitch"),
            line({semitoneStepper, caption(tr("semitones")), centStepper, caption(tr("cents"))}));
    addLine(*grid, 1, 3, tr("tuning"), line({tuning}));
    addLine(*grid, 2, 3, tr("beat"), line({clicks}));
    buildLevel(*grid, 6);
    for (const int gap : {2, 5}) {
        grid->setColumnMinimumWidth(gap, spacing::medium);
        grid->setColumnStretch(gap, 1);
    }

    auto* row = new QHBoxLayout;
    row->setSpacing(spacing::medium);
    row->addWidget(play);
    row->addWidget(place);
    row->addLayout(grid, 1);
    auto* foot = new QHBoxLayout;
    foot->addWidget(breakWord);
    foot->addWidget(device, 1);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(spacing::large, spacing::tight, spacing::large, spacing::tight);
    column->setSpacing(spacing::hair);
    column->addLayout(row);
    column->addLayout(foot);
}

void TransportBar::connectParts() {
    connect(play, &QAbstractButton::clicked, this, &TransportBar::playPauseRequested);
    connect(hearing, &HearingRow::chosen, this, &TransportBar::hearingChosen);
    connect(picture, &FocusRow::chosen, this, &TransportBar::focusChosen);
    connect(semitoneStepper, &SignedStepper::chosen, this, [this](int semitones) {
        emit playingChosen({inUse.speed, semitones, inUse.cents});
    });
    connect(centStepper, &SignedStepper::chosen, this, [this](int cents) {
        emit playingChosen({inUse.speed, inUse.semitones, cents});
    });
    connect(tuning, &TuningLine::inTuneChosen, this, &TransportBar::inTuneChosen);
    connect(balanceStepper, &SignedStepper::chosen, this, &TransportBar::balanceChosen);
    // A click only asks; what is shown follows setAsPlayed().
    connect(asPlayed, &QAbstractButton::clicked, this, &TransportBar::asPlayedChosen);
    connect(level, &QSlider::valueChanged, this,
            [this](int value) { emit levelChosen(static_cast<double>(value) / levelSteps); });
    connect(device, &DeviceLine::tryAgainRequested, this, &TransportBar::tryDeviceAgainRequested);
    connect(chooseDevice, &QAbstractButton::clicked, this, &TransportBar::devicePanelRequested);
    connect(breakWord, &QAbstractButton::clicked, this, [this] {
        listening.putWordAway();
        breakWord->hide();
    });
}

void TransportBar::setStudy(std::shared_ptr<const Study> given) {
    study = std::move(given);
    clicks->setHasBeats(study && study->beatMap.hasTempo());
}

void TransportBar::setLength(Seconds given) {
    length = given;
}

void TransportBar::setHasRecording(bool hasRecording) {
    play->setEnabled(hasRecording);
    hearing->setEnabled(hasRecording);
    band->setEnabled(hasRecording);
    asPlayed->setEnabled(hasRecording);
}

void TransportBar::setHeard(Seconds now, bool playing) {
    play->setPlaying(playing);
    const bool hasBars = study && study->beatMap.hasTempo();
    // Counted on the half beat, so that the words can be read while they change.
    const auto halves =
        hasBars ? static_cast<std::int64_t>(std::floor(study->beatMap.beatsAt(now) * 2 + 1e-6)) : 0;
    place->showPlace(hasBars ? placeText(Beats(halves, 2), study->meters()) : QString(), now, length);
    countListening(playing);
}

void TransportBar::showManner(const Heard& heard) {
    place->showSpeed(heard.speed);
    place->showHeld(heard.holding);
    if (!heard.playing || heard.stage == Stage::Sounding) return place->showStage({});
    place->showStage(heard.stage == Stage::CountIn ? tr("count-in %1").arg(heard.beatsLeft)
                                                   : tr("gap %1: your turn").arg(heard.beatsLeft));
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

void TransportBar::setTuning(std::optional<double> cents, double driftCents) {
    tuning->setTuning(cents, driftCents);
}

void TransportBar::setLevel(double given) {
    const QSignalBlocker quiet(level);
    level->setValue(static_cast<int>(std::lround(std::clamp(given, 0.0, 1.0) * levelSteps)));
}

void TransportBar::setBalance(int decibels) {
    balanceStepper->setValue(decibels);
}

void TransportBar::setAsPlayed(bool now) {
    asPlayed->setChecked(now);
}

void TransportBar::setHeldBack(bool now) {
    if (now == isHeldBack) return;
    isHeldBack = now;
    // Kept in its place while it says nothing, so that nothing moves when it does.
    QPalette ink = heldBack->palette();
    ink.setColor(QPalette::WindowText, now ? color(Role::LooseEnd) : QColor(Qt::transparent));
    heldBack->setPalette(ink);
    heldBack->setAccessibleName(now ? tr("Too loud: held back") : tr("Loudness within bounds"));
}

void TransportBar::setDevice(const DeviceReport& report) {
    device->setReport(report);
    chooseDevice->setToolTip(device->text());
}

void TransportBar::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), color(Role::Panel));
    painter.fillRect(QRectF(0, 0, width(), 1), color(Role::Rule));
}

} // namespace earwright::ui
