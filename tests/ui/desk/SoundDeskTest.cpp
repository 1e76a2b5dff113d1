#include "ui/desk/SoundDesk.h"

#include "ui/commands/CommandSet.h"
#include "ui/desk/DeskWindow.h"
#include "ui/theme/QuietButton.h"
#include "ui/transport/DeviceLine.h"
#include "ui/transport/DevicePanel.h"
#include "ui/transport/TransportBar.h"

#include <QAction>
#include <QApplication>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

class SoundDeskTest : public testing::Test {
protected:
    SoundDeskTest() {
        silent.engine.openDevice = false;
        silent.unsavedWork = folder.filePath("unsaved").toStdString();
    }

    QTemporaryDir folder;
    QSettings settings{folder.filePath("settings.ini"), QSettings::IniFormat};
    DeskSession::Options silent;
};

TEST_F(SoundDeskTest, BeginsWithTheSystemsOwnDevice) {
    EXPECT_EQ(SoundDesk::remembered(settings), DeviceWish{});
}

TEST_F(SoundDeskTest, RemembersTheChoiceForTheNextTime) {
    {
        DeskWindow window(silent, settings);
        window.sound().showPanel();
        emit window.sound().devicePanel()->wished({7, 48000, 0.16, "headphones"});
    }
    settings.sync();
    QSettings again(folder.filePath("settings.ini"), QSettings::IniFormat);
    const DeviceWish wish = SoundDesk::remembered(again);
    EXPECT_EQ(wish.name, "headphones");
    EXPECT_EQ(wish.index, -1) << "an index is worth nothing the next time";
    EXPECT_EQ(wish.rateHertz, 48000);
    EXPECT_DOUBLE_EQ(wish.latencySeconds, 0.16);
}

TEST_F(SoundDeskTest, OpensThePanelFromTheDeviceLineAndFromTheMenu) {
    DeskWindow window(silent, settings);
    window.show();
    EXPECT_EQ(window.sound().devicePanel(), nullptr);
    window.transport().deviceButton()->click();
    ASSERT_NE(window.sound().devicePanel(), nullptr);
    EXPECT_TRUE(window.sound().devicePanel()->isVisible());
    EXPECT_FALSE(window.sound().devicePanel()->isModal()) << "the music goes on beside it";
    QTest::keyClick(window.sound().devicePanel(), Qt::Key_Escape);
    EXPECT_FALSE(window.sound().devicePanel()->isVisible());
    window.commands().action(CommandId::SoundDevice)->trigger();
    EXPECT_TRUE(window.sound().devicePanel()->isVisible());
}

} // namespace
