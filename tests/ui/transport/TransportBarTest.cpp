#include "ui/transport/TransportBar.h"

#include "tests/ui/Picture.h"
#include "ui/theme/QuietButton.h"
#include "ui/theme/Theme.h"
#include "ui/transport/BandRow.h"
#include "ui/transport/ClickRow.h"
#include "ui/transport/DeviceLine.h"
#include "ui/transport/FocusRow.h"
#include "ui/transport/HearingRow.h"
#include "ui/transport/PlaceDisplay.h"
#include "ui/transport/PlayButton.h"
#include "ui/transport/SignedStepper.h"
#include "ui/transport/TuningLine.h"

#include <QApplication>
#include <QLabel>
#include <QSignalSpy>
#include <QSlider>
#include <QTest>

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

std::shared_ptr<const Study> withBars() {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}});
    return std::make_shared<const Study>(study);
}

} // namespace

TEST(TransportBar, SaysBarBeatClockAndSpeed) {
    TransportBar bar;
    bar.setStudy(withBars());
    bar.setLength(Seconds(271));
    // Bar 30, beat 2½ at 120 a minute: 29 bars of 2 s and a beat and a half of half a second.
    bar.setHeard(Seconds(29 * 2 + 0.75), true);
    bar.setPlaying({0.5, 0, 0});
    EXPECT_EQ(bar.placeDisplay()->largeText().toStdString(), "bar 30, beat 2½");
    EXPECT_EQ(bar.placeDisplay()->smallText().toStdString(), "0:58.8 of 4:31 · 50 %");
    EXPECT_TRUE(bar.playButton()->isPlaying());
}

TEST(TransportBar, SaysTheClockAloneWithoutBars) {
    TransportBar bar;
    bar.setLength(Seconds(271));
    bar.setHeard(Seconds(72.4), false);
    EXPECT_EQ(bar.placeDisplay()->largeText().toStdString(), "1:12.4");
    EXPECT_EQ(bar.placeDisplay()->smallText().toStdString(), "of 4:31");
}

TEST(TransportBar, ShowsAHearingWhenToldAndAsksForOneWhenClicked) {
    TransportBar bar;
    bar.setHasRecording(true);
    QSignalSpy asked(&bar, &TransportBar::hearingChosen);
    bar.setHearing(Hearing::Trade);
    EXPECT_TRUE(bar.hearingRow()->button(Hearing::Trade)->isChecked());
    EXPECT_EQ(asked.count(), 0);
    QTest::mouseClick(bar.hearingRow()->button(Hearing::Split), Qt::LeftButton);
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked[0][0].value<Hearing>(), Hearing::Split);
}

TEST(TransportBar, ShowsAFocusWhenToldAndAsksForOneWhenClicked) {
    TransportBar bar;
    bar.setIsStereo(true);
    QSignalSpy asked(&bar, &TransportBar::focusChosen);
    bar.showFocus(Focus::Sides);
    EXPECT_TRUE(bar.focusRow()->button(Focus::Sides)->isChecked());
    EXPECT_EQ(asked.count(), 0);
    QTest::mouseClick(bar.focusRow()->button(Focus::Left), Qt::LeftButton);
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked[0][0].value<Focus>(), Focus::Left);
}

TEST(TransportBar, HasNoFocusToChooseInMonoAndSaysWhy) {
    TransportBar bar;
    bar.setIsStereo(false);
    QSignalSpy asked(&bar, &TransportBar::focusChosen);
    QTest::mouseClick(bar.focusRow()->button(Focus::Left), Qt::LeftButton);
    EXPECT_EQ(asked.count(), 0);
    EXPECT_TRUE(bar.focusRow()->button(Focus::Left)->toolTip().contains("stereo recordings only"));
    bar.setIsStereo(true);
    EXPECT_FALSE(bar.focusRow()->button(Focus::Left)->toolTip().contains("only"));
}

TEST(TransportBar, MovesOnlyWhatWasAskedOfThePitch) {
    TransportBar bar;
    bar.setPlaying({0.5, 3, 7});
    bar.setTuning(-12.0);
    QSignalSpy asked(&bar, &TransportBar::playingChosen);
    bar.semitones()->lowerButton()->click();
    bar.cents()->higherButton()->click();
    ASSERT_EQ(asked.count(), 2);
    EXPECT_EQ(asked[0][0].value<Playing>(), (Playing{0.5, 2, 7}));
    EXPECT_EQ(asked[1][0].value<Playing>(), (Playing{0.5, 3, 8}));
}

TEST(TransportBar, SaysWhatGoesOnInsteadOfTheRecord) {
    TransportBar bar;
    bar.setStudy(withBars());
    bar.setHeard(Seconds(2), true);
    Heard heard;
    heard.playing = true;
    heard.stage = Stage::CountIn;
    heard.beatsLeft = 3;
    bar.showManner(heard);
    EXPECT_EQ(bar.placeDisplay()->largeText().toStdString(), "count-in 3");
    heard.stage = Stage::Gap;
    heard.beatsLeft = 2;
    bar.showManner(heard);
    EXPECT_EQ(bar.placeDisplay()->largeText().toStdString(), "gap 2: your turn");
    heard.stage = Stage::Sounding;
    heard.speed = 0.65;
    heard.holding = true;
    bar.showManner(heard);
    EXPECT_EQ(bar.placeDisplay()->largeText().toStdString(), "bar 2, beat 1");
    EXPECT_TRUE(bar.placeDisplay()->smallText().endsWith("65 % · held"));
}

TEST(TransportBar, MarksWhatIsHeldBackInBrick) {
    TransportBar bar;
    const auto ink = [&] { return bar.heldBackMark()->palette().color(QPalette::WindowText); };
    EXPECT_EQ(ink().alpha(), 0);
    bar.setHeldBack(true);
    EXPECT_EQ(ink().rgb(), color(Role::LooseEnd).rgb());
    EXPECT_TRUE(bar.heldBackMark()->accessibleName().contains("held back"));
    bar.setHeldBack(false);
    EXPECT_EQ(bar.heldBackMark()->accessibleName(), "Loudness within bounds");
    EXPECT_EQ(ink().alpha(), 0);
}

TEST(TransportBar, AsksForYoursLouderOrSofter) {
    TransportBar bar;
    bar.setHasRecording(true);
    bar.setBalance(-3);
    QSignalSpy asked(&bar, &TransportBar::balanceChosen);
    EXPECT_EQ(bar.balance()->text().toStdString(), "−3");
    bar.balance()->higherButton()->click();
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked[0][0].toInt(), -2);
}

TEST(TransportBar, TellsALevelOnlyWhenTheUserMovesIt) {
    TransportBar bar;
    QSignalSpy asked(&bar, &TransportBar::levelChosen);
    bar.setLevel(0.4);
    EXPECT_EQ(bar.levelSlider()->value(), 40);
    EXPECT_EQ(asked.count(), 0);
    bar.levelSlider()->setValue(55);
    ASSERT_EQ(asked.count(), 1);
    EXPECT_DOUBLE_EQ(asked[0][0].toDouble(), 0.55);
    EXPECT_TRUE(bar.levelSlider()->toolTip().contains("hearing"));
}

TEST(TransportBar, OffersTwoWaysOutWhenTheDeviceIsLost) {
    TransportBar bar;
    DeviceReport report;
    report.state = DeviceState::Running;
    report.name = "desk speakers";
    bar.setDevice(report);
    EXPECT_TRUE(bar.deviceLine()->isHidden());
    report.state = DeviceState::Lost;
    report.message = "The sound device \"desk speakers\" is gone; the study goes on silently.";
    bar.setDevice(report);
    EXPECT_EQ(bar.deviceLine()->text().toStdString(), report.message);
    QSignalSpy again(&bar, &TransportBar::tryDeviceAgainRequested);
    QSignalSpy list(&bar, &TransportBar::devicePanelRequested);
    bar.deviceLine()->tryAgainButton()->click();
    bar.deviceButton()->click();
    EXPECT_EQ(again.count(), 1);
    EXPECT_EQ(list.count(), 1);
}

TEST(TransportBar, HasNothingToPlayWithoutARecording) {
    TransportBar bar;
    EXPECT_FALSE(bar.playButton()->isEnabled());
    bar.setHasRecording(true);
    QSignalSpy asked(&bar, &TransportBar::playPauseRequested);
    QTest::mouseClick(bar.playButton(), Qt::LeftButton);
    EXPECT_EQ(asked.count(), 1);
}

TEST(TransportBar, FitsANarrowWindow) {
    // A window on a screen of 1280 that does not fill it.
    constexpr int narrow = 1180;
    for (const Appearance appearance : {Appearance::Light, Appearance::Dark}) {
        applyTheme(*qApp, appearance);
        TransportBar bar;
        bar.setStudy(withBars());
        bar.setHasRecording(true);
        bar.setIsStereo(true);
        bar.setLength(Seconds(271));
        bar.setHeard(Seconds(72.4), true);
        bar.setPlaying({0.5, -2, 0});
        bar.setTuning(-12.0);
        bar.bandRow()->show(BandUse::Only, {46, 94});
        bar.clickRow()->show(true, -6, 4);
        bar.setBalance(-3);
        bar.setHeldBack(true);
        DeviceReport report;
        report.state = DeviceState::Running;
        report.name = "Built-in Audio Analog Stereo";
        bar.setDevice(report);
        EXPECT_LE(bar.minimumSizeHint().width(), narrow);
        bar.resize(1400, bar.sizeHint().height());
        bar.show();
        qApp->processEvents();
        const bool dark = appearance == Appearance::Dark;
        keepPicture(bar, dark ? "transport-dark.png" : "transport.png");
        report.state = DeviceState::Missing;
        report.message =
            "No sound device could be opened: nothing is plugged in. The study goes on silently.";
        bar.setDevice(report);
        bar.setHearing(Hearing::Trade);
        bar.setPlaying({1, 0, 12});
        bar.bandRow()->show(BandUse::Without, {BandEdges::lowest, 106});
        bar.resize(narrow, bar.sizeHint().height());
        qApp->processEvents();
        EXPECT_EQ(bar.width(), narrow) << "what is wrong with the device widens it";
        EXPECT_LE(bar.minimumSizeHint().width(), narrow);
        keepPicture(bar, dark ? "transport-trouble-dark.png" : "transport-trouble.png");
    }
    applyTheme(*qApp, Appearance::Light);
}
