#include "ui/desk/MessageBar.h"

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
