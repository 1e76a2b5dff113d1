#include "ui/commands/KeyWords.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

TEST(KeyWords, NameTheKeyACommandHasNow) {
    const KeyOf keyOf = [](CommandId) { return QKeySequence("Ctrl+J"); };
    EXPECT_EQ(howTo(CommandId::LooseEndHere, keyOf).toStdString(), "press Ctrl+J");
    EXPECT_EQ(howToSentence(CommandId::LooseEndHere, keyOf).toStdString(), "Press Ctrl+J");
    EXPECT_EQ(howTo(CommandId::LooseEndHere, tableKey).toStdString(), "press Q");
}

TEST(KeyWords, LeadToTheMenuWhereACommandHasNoKey) {
    const KeyOf none = [](CommandId) { return QKeySequence(); };
    EXPECT_EQ(howTo(CommandId::CheckPhrase, none).toStdString(),
              "choose “Check the phrase” in the menu Check");
}

} // namespace
} // namespace earwright::ui
