// Focus at the desk: by key and by hand, for stereo recordings only.
#include "tests/core/sound/WrittenFile.h"
#include "tests/ui/desk/SilentDesk.h"
#include "ui/theme/QuietButton.h"
#include "ui/transport/FocusRow.h"
#include "ui/transport/TransportBar.h"

#include <QTest>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

class FocusChoice : public SilentDesk {
protected:
    void SetUp() override { openWindow(); }
    void openTone(int channels) {
        const std::filesystem::path path = folder.filePath(QString("%1.wav").arg(channels)).toStdString();
        tests::writeSound(path, SF_FORMAT_WAV | SF_FORMAT_PCM_16, 22050, channels,
                          tests::sine(440, 22050, channels, 2));
        open(path);
    }
    QuietButton* button(Focus focus) { return window->transport().focusRow()->button(focus); }
};

TEST_F(FocusChoice, GoesRoundByKeyForthAndBack) {
    openTone(2);
    for (const Focus focus : {Focus::Left, Focus::Right, Focus::Centre, Focus::Sides, Focus::All}) {
        QTest::keyClick(window.get(), Qt::Key_F);
        EXPECT_EQ(window->listening().focus(), focus);
        EXPECT_TRUE(button(focus)->isChecked());
    }
    QTest::keyClick(window.get(), Qt::Key_F, Qt::ShiftModifier);
    EXPECT_EQ(window->listening().focus(), Focus::Sides);
}

TEST_F(FocusChoice, IsMadeByHandAndKeptOutOfTheStudy) {
    openTone(2);
    const Study before = window->session().study();
    QTest::mouseClick(button(Focus::Centre), Qt::LeftButton);
    EXPECT_EQ(window->listening().focus(), Focus::Centre);
    EXPECT_EQ(window->session().study(), before);
}

TEST_F(FocusChoice, IsNotOfferedInMono) {
    openTone(1);
    EXPECT_FALSE(button(Focus::Left)->isEnabled());
    EXPECT_FALSE(window->commands().action(CommandId::NextFocus)->isEnabled());
    QTest::keyClick(window.get(), Qt::Key_F);
    EXPECT_EQ(window->listening().focus(), Focus::All);
}

} // namespace
} // namespace earwright::ui
