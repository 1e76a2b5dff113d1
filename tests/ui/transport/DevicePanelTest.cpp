#include "ui/transport/DevicePanel.h"

#include "tests/ui/Picture.h"
#include "ui/theme/Theme.h"

#include <QApplication>
#include <QComboBox>
#include <QListWidget>
#include <QPushButton>
#include <QSignalSpy>
#include <QTest>

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

std::vector<DeviceChoice> twoDevices() {
    return {{3, "desk speakers", true, {44100, 48000}, 48000, 0.01},
            {7, "headphones", false, {44100, 96000}, 44100, 0.01}};
}

DeviceReport running() {
    DeviceReport report;
    report.state = DeviceState::Running;
    report.name = "headphones";
    report.rateHertz = 44100;
    report.latencySeconds = 0.087;
    report.bufferSeconds = 0.183;
    return report;
}

DeviceWish wishIn(const QSignalSpy& spy) {
    return spy.last()[0].value<DeviceWish>();
}

} // namespace

TEST(DevicePanel, ChoosesADeviceByNameAndIndexWithTheKeyboard) {
    DevicePanel panel;
    panel.setDevices(twoDevices());
    QSignalSpy wished(&panel, &DevicePanel::wished);
    panel.show();
    panel.deviceList()->setFocus();
    QTest::keyClick(panel.deviceList(), Qt::Key_Down);
    QTest::keyClick(panel.deviceList(), Qt::Key_Down);
    EXPECT_EQ(wished.count(), 0) << "walking along the list changes nothing";
    QTest::keyClick(panel.deviceList(), Qt::Key_Return);
    ASSERT_EQ(wished.count(), 1);
    EXPECT_EQ(wishIn(wished).index, 7);
    EXPECT_EQ(wishIn(wished).name, "headphones");
    EXPECT_TRUE(panel.isVisible());
    panel.deviceList()->setCurrentRow(0);
    QTest::keyClick(panel.deviceList(), Qt::Key_Return);
    EXPECT_EQ(wishIn(wished).index, -1);
    EXPECT_EQ(wishIn(wished).name, "") << "the system's choice";
}

TEST(DevicePanel, OffersTheRatesOfTheChosenDevice) {
    DevicePanel panel;
    panel.setDevices(twoDevices());
    panel.setWish({.name = "headphones"});
    ASSERT_EQ(panel.rateBox()->count(), 3);
    EXPECT_TRUE(panel.rateBox()->itemText(0).contains("44.1 kHz"));
    QSignalSpy wished(&panel, &DevicePanel::wished);
    panel.rateBox()->setFocus();
    panel.show();
    QTest::keyClick(panel.rateBox(), Qt::Key_End);
    ASSERT_EQ(wished.count(), 1);
    EXPECT_EQ(wishIn(wished).rateHertz, 96000);
    EXPECT_EQ(wishIn(wished).name, "headphones");
}

TEST(DevicePanel, ChoosesTheLatencyAndKeepsTheRest) {
    DevicePanel panel;
    panel.setDevices(twoDevices());
    panel.setWish({.rateHertz = 48000, .latencySeconds = 0.08});
    EXPECT_EQ(panel.latencyBox()->currentData().toInt(), 80);
    QSignalSpy wished(&panel, &DevicePanel::wished);
    panel.show();
    QTest::keyClick(panel.latencyBox(), Qt::Key_Down);
    ASSERT_EQ(wished.count(), 1);
    EXPECT_DOUBLE_EQ(wishIn(wished).latencySeconds, 0.12);
    EXPECT_EQ(wishIn(wished).rateHertz, 48000);
    panel.setWish({.latencySeconds = 0.033});
    EXPECT_EQ(panel.latencyBox()->currentData().toInt(), 33) << "a wish from elsewhere is shown as it is";
}

TEST(DevicePanel, ShowsWhatWasGrantedAndHowItHasGone) {
    DevicePanel panel;
    DeviceReport report = running();
    panel.setReport(report);
    EXPECT_EQ(panel.stateText(), "Playing to headphones at 44.1 kHz.");
    EXPECT_EQ(panel.grantedText(), "87 ms");
    EXPECT_EQ(panel.keptText(), "183 ms");
    EXPECT_EQ(panel.gapsText(), "0");
    EXPECT_TRUE(panel.growthText().isEmpty());
    report.underruns = 3;
    report.bufferSeconds = 0.333;
    report.grown = true;
    panel.setReport(report);
    EXPECT_EQ(panel.gapsText(), "3");
    EXPECT_TRUE(panel.growthText().contains("333 ms")) << panel.growthText().toStdString();
    EXPECT_TRUE(panel.growthText().contains("3 gap")) << panel.growthText().toStdString();
}

TEST(DevicePanel, TriesTheSameAgainInTrouble) {
    DevicePanel panel;
    panel.setDevices(twoDevices());
    panel.setWish({.index = 7, .latencySeconds = 0.16, .name = "headphones"});
    DeviceReport report;
    report.state = DeviceState::Lost;
    report.message = "The sound device has gone.";
    panel.setReport(report);
    EXPECT_EQ(panel.stateText(), "The sound device has gone.");
    EXPECT_EQ(panel.grantedText(), "–");
    QSignalSpy wished(&panel, &DevicePanel::wished);
    panel.tryAgainButton()->click();
    ASSERT_EQ(wished.count(), 1);
    EXPECT_EQ(wishIn(wished).name, "headphones");
    EXPECT_DOUBLE_EQ(wishIn(wished).latencySeconds, 0.16);
}

TEST(DevicePanel, KeepsThePlaceOfTheKeyboardWhileNothingChanges) {
    DevicePanel panel;
    panel.setDevices(twoDevices());
    panel.deviceList()->setCurrentRow(2);
    panel.setDevices(twoDevices());
    EXPECT_EQ(panel.deviceList()->currentRow(), 2);
    panel.setDevices({});
    EXPECT_EQ(panel.deviceList()->count(), 1) << "the system's choice is always there";
}

TEST(DevicePanel, IsNamedForScreenReaders) {
    DevicePanel panel;
    for (const QWidget* part :
         {static_cast<QWidget*>(panel.deviceList()), static_cast<QWidget*>(panel.rateBox()),
          static_cast<QWidget*>(panel.latencyBox())}) {
        EXPECT_FALSE(part->accessibleName().isEmpty());
        EXPECT_NE(part->focusPolicy() & Qt::TabFocus, 0);
    }
}

TEST(DevicePanel, LooksAsItShallByDayAndByNight) {
    for (const Appearance appearance : {Appearance::Light, Appearance::Dark}) {
        applyTheme(*qApp, appearance);
        const QString night = appearance == Appearance::Dark ? "-dark" : "";
        DevicePanel panel;
        panel.setDevices(twoDevices());
        panel.setWish({.index = 7, .name = "headphones"});
        DeviceReport report = running();
        report.underruns = 3;
        report.bufferSeconds = 0.333;
        report.grown = true;
        panel.setReport(report);
        panel.show();
        panel.deviceList()->setFocus();
        qApp->processEvents();
        // It stands beside the music: less than half of a screen of 1280.
        EXPECT_LE(panel.width(), 560);
        keepPicture(panel, "device" + night + ".png");
        report.state = DeviceState::Lost;
        report.message = "The sound device has gone; playing on silently and trying to get it back.";
        report.latencySeconds = 0;
        panel.setReport(report);
        qApp->processEvents();
        keepPicture(panel, "device-lost" + night + ".png");
    }
    applyTheme(*qApp, Appearance::Light);
}
