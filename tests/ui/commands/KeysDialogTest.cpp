#include "ui/commands/KeysDialog.h"

#include "ui/commands/KeyCatcher.h"

#include <QSettings>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

class KeysDialogTest : public testing::Test {
protected:
    QTemporaryDir folder;
    QSettings settings{folder.filePath("settings.ini"), QSettings::IniFormat};
    KeyBindings keys{settings};
    KeysDialog dialog{keys};
    KeyCatcher* catcher = dialog.findChild<KeyCatcher*>();
};

TEST_F(KeysDialogTest, GivesTheChosenCommandTheKeyPressed) {
    dialog.choose(CommandId::LoopPhrase);
    QTest::keyClick(catcher, Qt::Key_K, Qt::ControlModifier);
    EXPECT_EQ(keys.keys(CommandId::LoopPhrase), std::vector{QKeySequence("Ctrl+K")});
}

TEST_F(KeysDialogTest, TakesTabAndEscapeAsKeysToo) {
    dialog.choose(CommandId::LoopPhrase);
    QTest::keyClick(catcher, Qt::Key_Tab);
    EXPECT_EQ(keys.owner(QKeySequence(Qt::Key_Tab)), CommandId::LoopPhrase);
    QTest::keyClick(catcher, Qt::Key_Escape);
    EXPECT_EQ(keys.owner(QKeySequence(Qt::Key_Escape)), CommandId::LoopPhrase);
    EXPECT_TRUE(keys.keys(CommandId::LetGo).empty());
}

TEST_F(KeysDialogTest, CallsTabWithShiftWhatPeopleCallIt) {
    dialog.choose(CommandId::LoopPhrase);
    QTest::keyClick(catcher, Qt::Key_Backtab, Qt::ShiftModifier);
    EXPECT_EQ(catcher->text(), "Shift+Tab");
    EXPECT_EQ(keys.owner(QKeySequence("Shift+Tab")), CommandId::LoopPhrase);
    EXPECT_TRUE(keys.keys(CommandId::PreviousColumn).empty());
}

TEST_F(KeysDialogTest, TakesAKeyThatIsAnothersUnderTheNameTheOtherHasItBy) {
    dialog.show();
    dialog.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&dialog));
    dialog.choose(CommandId::LoopPhrase);
    catcher->setFocus();
    QTest::keyClick(catcher, Qt::Key_Comma, Qt::ShiftModifier);
    EXPECT_EQ(keys.owner(QKeySequence("Shift+,")), CommandId::LoopPhrase);
    EXPECT_TRUE(keys.keys(CommandId::LoopEndEarlier).empty());
    EXPECT_FALSE(catcher->hasFocus()) << "the next key is for the dialog";
    // And once more, with what is known now.
    dialog.choose(CommandId::CheckPhrase);
    catcher->setFocus();
    QTest::keyClick(catcher, Qt::Key_Comma, Qt::ShiftModifier);
    EXPECT_EQ(keys.owner(QKeySequence("Shift+,")), CommandId::CheckPhrase);
    // Systems name the key by what it types.
    dialog.choose(CommandId::LoopPhrase);
    catcher->setFocus();
    QKeyEvent typed(QEvent::KeyPress, Qt::Key_Less, Qt::ShiftModifier, "<");
    QApplication::sendEvent(catcher, &typed);
    EXPECT_EQ(keys.owner(QKeySequence("Shift+,")), CommandId::LoopPhrase);
}

TEST_F(KeysDialogTest, IsNotEnteredByTabWhereKeysAreCaught) {
    EXPECT_FALSE(catcher->focusPolicy() & Qt::TabFocus);
}

TEST_F(KeysDialogTest, IgnoresAModifierAlone) {
    dialog.choose(CommandId::LoopPhrase);
    QTest::keyClick(catcher, Qt::Key_Shift);
    EXPECT_FALSE(keys.isChanged(CommandId::LoopPhrase));
}

} // namespace
} // namespace earwright::ui
