#include "ui/desk/MessageBar.h"

#include <QPushButton>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

TEST(MessageBar, IsThereOnlyWhileSomethingIsSaid) {
    MessageBar bar;
    EXPECT_TRUE(bar.isHidden());
    bar.say("a", MessageBar::Tone::Trouble, "The device is gone.");
    EXPECT_FALSE(bar.isHidden());
    bar.close("a");
    EXPECT_TRUE(bar.isHidden());
    bar.close("a");
}

TEST(MessageBar, SaysOneThingOfASubjectAtATime) {
    MessageBar bar;
    bar.say("a", MessageBar::Tone::Question, "First?");
    bar.say("b", MessageBar::Tone::Question, "Other?");
    bar.say("a", MessageBar::Tone::Question, "Second?");
    EXPECT_EQ(bar.sentence("a"), "Second?");
    EXPECT_EQ(bar.sentence("b"), "Other?");
}

TEST(MessageBar, KeepsAButtonInItsPlaceWhenOnlyTheWordsChange) {
    MessageBar bar;
    int first = 0;
    int second = 0;
    bar.say("a", MessageBar::Tone::Question, "10 %", {{"Cancel", [&] { ++first; }}});
    const auto* button = bar.findChild<QPushButton*>();
    bar.say("a", MessageBar::Tone::Question, "20 %", {{"Cancel", [&] { ++second; }}});
    EXPECT_EQ(bar.findChild<QPushButton*>(), button);
    EXPECT_EQ(bar.sentence("a"), "20 %");
    bar.choose("a", 0);
    EXPECT_EQ(first, 0);
    EXPECT_EQ(second, 1);
}

TEST(MessageBar, AnswersTakeNoKeyOfAltAndALetterFromTheDesk) {
    MessageBar bar;
    bar.say("a", MessageBar::Tone::Question, "Save?", {{"&Save", {}}, {"Save & close", {}}});
    for (const auto* button : bar.findChildren<QPushButton*>()) {
        EXPECT_TRUE(button->shortcut().isEmpty()) << button->text().toStdString();
        EXPECT_TRUE(button->text().contains("&&")) << "drawn as it was said";
    }
    EXPECT_EQ(bar.findChildren<QPushButton*>().size(), 2);
}

TEST(MessageBar, ClosesAQuestionBeforeItsAnswerActs) {
    MessageBar bar;
    QString atAnswer = "unset";
    bar.say("a", MessageBar::Tone::Question, "Save?",
            {{"Save", [&] { atAnswer = bar.sentence("a"); }}, {"Stay", {}}});
    bar.choose("a", 0);
    EXPECT_EQ(atAnswer, "");
    bar.say("a", MessageBar::Tone::Question, "Save?", {{"Save", {}}, {"Stay", {}}});
    bar.choose("a", 1);
    EXPECT_EQ(bar.sentence("a"), "");
}

} // namespace
} // namespace earwright::ui
