#include "ui/commands/KeyBindings.h"

#include <QSettings>
#include <QTemporaryDir>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

class KeyBindingsTest : public testing::Test {
protected:
    QTemporaryDir folder;
    QSettings settings{folder.filePath("settings.ini"), QSettings::IniFormat};
    KeyBindings keys{settings};
};

TEST_F(KeyBindingsTest, StartWithTheKeysOfTheTable) {
    EXPECT_EQ(keys.keys(CommandId::LoopPhrase), std::vector{QKeySequence("P")});
    EXPECT_EQ(keys.owner(QKeySequence("P")), CommandId::LoopPhrase);
    EXPECT_FALSE(keys.isChanged(CommandId::LoopPhrase));
    EXPECT_EQ(keys.owner(QKeySequence()), std::nullopt);
}

TEST_F(KeyBindingsTest, TakeAKeyFromItsFormerOwner) {
    keys.assign(CommandId::CheckPhrase, QKeySequence("P"));
    EXPECT_EQ(keys.owner(QKeySequence("P")), CommandId::CheckPhrase);
    EXPECT_TRUE(keys.keys(CommandId::LoopPhrase).empty());
    EXPECT_EQ(keys.owner(QKeySequence("C")), std::nullopt);
}

TEST_F(KeyBindingsTest, OutliveTheSession) {
    keys.assign(CommandId::TapBar, QKeySequence("B"));
    keys.assign(CommandId::Ghost, QKeySequence());
    KeyBindings later(settings);
    EXPECT_EQ(later.keys(CommandId::TapBar), std::vector{QKeySequence("B")});
    EXPECT_TRUE(later.keys(CommandId::Ghost).empty());
    EXPECT_TRUE(later.isChanged(CommandId::Ghost));
}

TEST_F(KeyBindingsTest, RestoreWithoutRobbingWhoHasTheKeyNow) {
    keys.assign(CommandId::CheckPhrase, QKeySequence("P"));
    keys.restore(CommandId::LoopPhrase);
    EXPECT_EQ(keys.owner(QKeySequence("P")), CommandId::CheckPhrase);
    keys.restoreAll();
    EXPECT_EQ(keys.owner(QKeySequence("P")), CommandId::LoopPhrase);
    EXPECT_EQ(keys.owner(QKeySequence("C")), CommandId::CheckPhrase);
    EXPECT_TRUE(settings.allKeys().isEmpty());
}

TEST_F(KeyBindingsTest, LeaveAUsersKeyAloneThatANewerTableHasForSomethingElse) {
    // As an older program kept it, whose table did not have P yet.
    const QString word = QLatin1String(command(CommandId::CheckPhrase).word);
    settings.setValue("keys/" + word, QStringList("P"));
    const KeyBindings later(settings);
    EXPECT_EQ(later.owner(QKeySequence("P")), CommandId::CheckPhrase);
    EXPECT_TRUE(later.keys(CommandId::LoopPhrase).empty());
}

} // namespace
} // namespace earwright::ui
