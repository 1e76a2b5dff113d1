#include "ui/commands/CommandSet.h"

#include "ui/commands/NeedWords.h"

#include <QAction>
#include <QMainWindow>
#include <QMenu>
#include <QMenuBar>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

class CommandSetTest : public testing::Test {
protected:
    QTemporaryDir folder;
    QSettings settings{folder.filePath("settings.ini"), QSettings::IniFormat};
    KeyBindings keys{settings};
    QMainWindow window;
    CommandSet commands{keys, window};

    void showWindow() {
        window.show();
        window.activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
    }
};

TEST_F(CommandSetTest, OffersACommandOnlyWhenAllItNeedsIsThere) {
    commands.setConditions(Condition::RecordingOpen | Condition::WrittenToCheck);
    EXPECT_FALSE(commands.action(CommandId::CheckPhrase)->isEnabled());
    EXPECT_TRUE(commands.action(CommandId::Open)->isEnabled());
    commands.setConditions(Condition::RecordingOpen | Condition::WrittenToCheck | Condition::Tempo);
    EXPECT_TRUE(commands.action(CommandId::CheckPhrase)->isEnabled());
}

TEST_F(CommandSetTest, TellsWhyAKeyDoesNothingNow) {
    commands.setConditions(Condition::RecordingOpen | Condition::Tempo);
    const QKeySequence check = keys.keys(CommandId::CheckPhrase).front();
    EXPECT_EQ(commands.whyNot(check),
              command(CommandId::CheckPhrase).translatedName() + ": " + needWords(Condition::WrittenToCheck));
    EXPECT_TRUE(commands.whyNot(keys.keys(CommandId::Open).front()).isEmpty()) << "it can be done";
    EXPECT_TRUE(commands.whyNot(QKeySequence("F12")).isEmpty()) << "it belongs to nothing";
}

TEST_F(CommandSetTest, CallsTheLargeKeyEnterAsAllElseHereDoes) {
    const auto shown = [&](CommandId id) {
        return commands.action(id)->shortcut().toString(QKeySequence::NativeText).toStdString();
    };
    EXPECT_EQ(shown(CommandId::TapBar), "Enter");
    EXPECT_EQ(shown(CommandId::TapBeat), "Shift+Enter");
    // What is stored and read back keeps the library's own word.
    EXPECT_EQ(commands.action(CommandId::TapBar)->shortcut().toString(QKeySequence::PortableText), "Return");
}

TEST_F(CommandSetTest, DoesWhatIsBoundWhenTheKeyIsPressed) {
    int loops = 0;
    commands.bind(CommandId::LoopPhrase, [&] { ++loops; });
    showWindow();
    commands.setConditions({});
    QTest::keyClick(&window, Qt::Key_P);
    EXPECT_EQ(loops, 0);
    commands.setConditions(Condition::RecordingOpen);
    QTest::keyClick(&window, Qt::Key_P);
    EXPECT_EQ(loops, 1);
}

TEST_F(CommandSetTest, HearsTabWithShiftUnderQtsOwnNameForIt) {
    int steps = 0;
    commands.bind(CommandId::PreviousColumn, [&] { ++steps; });
    showWindow();
    commands.setConditions(Condition::Grid);
    QTest::keyClick(&window, Qt::Key_Backtab, Qt::ShiftModifier);
    EXPECT_EQ(steps, 1);
}

TEST_F(CommandSetTest, FollowsAChangedKeyAtOnce) {
    int loops = 0;
    commands.bind(CommandId::LoopPhrase, [&] { ++loops; });
    commands.setConditions(Condition::RecordingOpen);
    keys.assign(CommandId::LoopPhrase, QKeySequence("K"));
    showWindow();
    QTest::keyClick(&window, Qt::Key_P);
    QTest::keyClick(&window, Qt::Key_K);
    EXPECT_EQ(loops, 1);
}

TEST_F(CommandSetTest, NamesWhatIsStillUnbound) {
    const std::size_t all = commandTable().size();
    EXPECT_EQ(commands.unbound().size(), all);
    commands.bind(CommandId::Save, [] {});
    EXPECT_EQ(commands.unbound().size(), all - 1);
}

TEST_F(CommandSetTest, PutsEveryCommandIntoAMenu) {
    commands.fill(*window.menuBar());
    std::size_t count = 0;
    for (QAction* top : window.menuBar()->actions())
        for (QAction* action : top->menu()->actions())
            count += action->isSeparator() ? 0 : 1;
    EXPECT_EQ(count, commandTable().size());
    EXPECT_EQ(window.menuBar()->actions().size(), 10);
}

} // namespace
} // namespace earwright::ui
