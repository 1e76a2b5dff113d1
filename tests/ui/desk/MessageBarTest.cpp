#include "ui/desk/MessageBar.h"

#include "ui/desk/MessageRow.h"

#include <QApplication>
#include <QPushButton>
#include <QResizeEvent>

#include <algorithm>
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

/// A message bar with a place for what passes.
struct BarWithAPlace {
    QWidget place;
    MessageBar bar;

    explicit BarWithAPlace(QSize size) {
        place.resize(size);
        bar.setPassingPlace(&place);
    }
    std::ptrdiff_t passing() const {
        const auto rows = place.findChildren<MessageRow*>();
        return std::count_if(rows.begin(), rows.end(),
                             [](const MessageRow* row) { return !row->isHidden(); });
    }
};

TEST(MessageBar, ShowsWhatPassesInItsPlaceAndWhatStaysAtTheFoot) {
    BarWithAPlace shown(QSize(500, 30));
    shown.bar.notice("Played on string 2, fret 10.");
    EXPECT_EQ(shown.passing(), 1);
    EXPECT_TRUE(shown.bar.isHidden()) << "nothing lies over the sheet";
    EXPECT_EQ(shown.bar.sentence("notice"), "Played on string 2, fret 10.");
    EXPECT_TRUE(shown.place.rect().contains(shown.place.findChild<MessageRow*>()->geometry()));
    shown.bar.say("a", MessageBar::Tone::Question, "Save?", {{"Save", {}}});
    EXPECT_EQ(shown.passing(), 1);
    EXPECT_FALSE(shown.bar.isHidden());
    shown.bar.close("notice");
    EXPECT_EQ(shown.passing(), 0);
    EXPECT_FALSE(shown.bar.isHidden());
    shown.bar.close("a");
    EXPECT_TRUE(shown.bar.isHidden());
}

TEST(MessageBar, TellsHowMuchItLiesOver) {
    QWidget sheet;
    sheet.resize(500, 300);
    auto* bar = new MessageBar(&sheet);
    int covered = -1;
    QObject::connect(bar, &MessageBar::covers, [&](int height) { covered = height; });
    sheet.show();
    bar->say("a", MessageBar::Tone::Question, "Save?", {{"Save", {}}});
    bar->resize(500, 40);
    EXPECT_EQ(covered, 40);
    bar->resize(500, 70);
    EXPECT_EQ(covered, 70);
    bar->close("a");
    EXPECT_EQ(covered, 0);
}

TEST(MessageBar, ShowsAtTheFootWhatHasNoRoomInThePlaceForPassing) {
    const QString sentence = QString("word ").repeated(30);
    BarWithAPlace shown(QSize(120, 30));
    shown.bar.notice(sentence);
    EXPECT_EQ(shown.passing(), 0);
    EXPECT_FALSE(shown.bar.isHidden());
    shown.place.resize(2000, 30);
    QResizeEvent wider(QSize(2000, 30), QSize(120, 30));
    QApplication::sendEvent(&shown.place, &wider);
    EXPECT_EQ(shown.passing(), 1);
    EXPECT_TRUE(shown.bar.isHidden());
    shown.bar.notice(sentence.repeated(9));
    EXPECT_EQ(shown.passing(), 0) << "other words on the same row";
    EXPECT_FALSE(shown.bar.isHidden());
    EXPECT_EQ(shown.bar.sentence("notice"), sentence.repeated(9));
}

} // namespace
} // namespace earwright::ui
