// Focus at the desk: by key and by hand, for stereo recordings only.
#include "tests/core/sound/WrittenFile.h"
#include "ui/desk/DeskWindow.h"
#include "ui/theme/QuietButton.h"
#include "ui/transport/FocusRow.h"
#include "ui/transport/TransportBar.h"

#include <QSettings>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

class FocusChoice : public testing::Test {
protected:
    void SetUp() override {
        DeskSession::Options silent;
        silent.engine.openDevice = false;
        silent.unsavedWork = folder.filePath("unsaved").toStdString();
        window = std::make_unique<DeskWindow>(silent, settings);
        window->show();
        window->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get()));
    }
    void TearDown() override {
        if (window->session().isOpen()) window->session().giveUp();
    }
    void open(int channels) {
        const std::filesystem::path path = folder.filePath(QString("%1.wav").arg(channels)).toStdString();
        tests::writeSound(path, SF_FORMAT_WAV | SF_FORMAT_PCM_16, 22050, channels,
                          tests::sine(440, 22050, channels, 2));
        QSignalSpy opened(&window->session(), &DeskSession::opened);
        window->open(path);
        ASSERT_TRUE(opened.wait(5000));
    }
    QuietButton* button(Focus focus) { return window->transport().focusRow()->button(focus); }

    QTemporaryDir folder;
    QSettings settings{folder.filePath("settings.ini"), QSettings::IniFormat};
    std::unique_ptr<DeskWindow> window;
};

TEST_F(FocusChoice, GoesRoundByKeyForthAndBack) {
    open(2);
    for (const Focus focus : {Focus::Left, Focus::Right, Focus::Centre, Focus::Sides, Focus::All}) {
        QTest::keyClick(window.get(), Qt::Key_F);
        EXPECT_EQ(window->listening().focus(), focus);
        EXPECT_TRUE(button(focus)->isChecked());
    }
    QTest::keyClick(window.get(), Qt::Key_F, Qt::ShiftModifier);
    EXPECT_EQ(window->listening().focus(), Focus::Sides);
}

TEST_F(FocusChoice, IsMadeByHandAndKeptOutOfTheStudy) {
    open(2);
    const Study before = window->session().study();
    QTest::mouseClick(button(Focus::Centre), Qt::LeftButton);
    EXPECT_EQ(window->listening().focus(), Focus::Centre);
    EXPECT_EQ(window->session().study(), before);
}

TEST_F(FocusChoice, IsNotOfferedInMono) {
    open(1);
    EXPECT_FALSE(button(Focus::Left)->isEnabled());
    EXPECT_FALSE(window->commands().action(CommandId::NextFocus)->isEnabled());
    QTest::keyClick(window.get(), Qt::Key_F);
    EXPECT_EQ(window->listening().focus(), Focus::All);
}

} // namespace
} // namespace earwright::ui
