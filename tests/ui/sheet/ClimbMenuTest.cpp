#include "ui/sheet/ClimbMenu.h"

#include <QSignalSpy>
#include <QTest>

#include <gtest/gtest.h>
#include <vector>

namespace earwright::ui {
namespace {

class ClimbMenuTest : public testing::Test {
protected:
    ClimbMenu menu{Climb{5, 4, 100}, false};
    std::vector<std::optional<Climb>> choices;

    ClimbMenuTest() {
        QObject::connect(&menu, &ClimbMenu::chosen, &menu,
                         [this](const std::optional<Climb>& climb) { choices.push_back(climb); });
    }
    QAction* action(const QString& text) {
        for (QAction* each : menu.actions())
            if (each->text() == text) return each;
        return nullptr;
    }
    void click(const QString& text) {
        QTest::mouseClick(&menu, Qt::LeftButton, {}, menu.actionGeometry(action(text)).center());
    }
};

TEST_F(ClimbMenuTest, TicksTheClimbItIsOpenedOn) {
    for (const char* ticked : {"5 %", "every 4", "100 %"})
        EXPECT_TRUE(action(ticked)->isChecked()) << ticked;
    for (const char* open : {"2 %", "10 %", "every 1", "every 2", "every 8", "80 %", "120 %"})
        EXPECT_FALSE(action(open)->isChecked()) << open;
    EXPECT_FALSE(action("No climb")->isEnabled());
    EXPECT_FALSE(action("A step back")->isEnabled());
}

TEST_F(ClimbMenuTest, StaysOpenWhileStepPassesAndTargetAreChosen) {
    menu.popup({0, 0});
    click("10 %");
    click("every 2");
    click("80 %");
    EXPECT_TRUE(menu.isVisible());
    ASSERT_EQ(choices.size(), 3u);
    EXPECT_EQ(choices[0], (Climb{10, 4, 100}));
    EXPECT_EQ(choices[2], (Climb{10, 2, 80}));
    EXPECT_TRUE(action("10 %")->isChecked());
    EXPECT_FALSE(action("5 %")->isChecked());
    QSignalSpy back(&menu, &ClimbMenu::stepBackChosen);
    action("A step back")->trigger();
    EXPECT_EQ(back.count(), 1);
    click("No climb");
    EXPECT_FALSE(menu.isVisible());
    EXPECT_FALSE(choices.back());
}

TEST_F(ClimbMenuTest, StaysOpenForTheKeyboardToo) {
    menu.popup({0, 0});
    menu.setActiveAction(action("10 %"));
    QTest::keyClick(&menu, Qt::Key_Return);
    menu.setActiveAction(action("every 1"));
    QTest::keyClick(&menu, Qt::Key_Space);
    EXPECT_TRUE(menu.isVisible());
    ASSERT_EQ(choices.size(), 2u);
    EXPECT_EQ(choices[1], (Climb{10, 1, 100}));
    QTest::keyClick(&menu, Qt::Key_Escape);
    EXPECT_FALSE(menu.isVisible());
}

TEST(ClimbWords, SayWhatTheClimbDoes) {
    EXPECT_EQ(climbText({10, 2, 80}, true), "climb to 80");
    EXPECT_EQ(climbTip({10, 2, 80}, true), "Faster by 10 % every 2 passes, up to 80 %");
    EXPECT_EQ(climbTip({5, 1, 100}, true), "Faster by 5 % every pass, up to 100 %");
}

} // namespace
} // namespace earwright::ui
