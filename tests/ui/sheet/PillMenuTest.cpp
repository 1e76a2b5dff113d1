#include "ui/sheet/PillMenu.h"

#include <QSignalSpy>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

QAction* actionOf(const QMenu& menu, const QString& text) {
    for (QAction* each : menu.actions())
        if (each->text() == text) return each;
    return nullptr;
}

TEST(PillMenu, TicksWhatHoldsAndTellsWhatIsChosen) {
    PillMenu menu("Silence after each pass", gapChoices(), 2);
    EXPECT_TRUE(actionOf(menu, "2 beats")->isChecked());
    EXPECT_FALSE(actionOf(menu, "none")->isChecked());
    EXPECT_FALSE(menu.actions().front()->isEnabled()); // the title
    QSignalSpy chosen(&menu, &PillMenu::chosen);
    actionOf(menu, "4 beats")->trigger();
    ASSERT_EQ(chosen.count(), 1);
    EXPECT_EQ(chosen[0][0].toInt(), 4);
}

TEST(PillMenu, OffersGapsOfNoneToFourBeats) {
    const auto choices = gapChoices();
    ASSERT_EQ(choices.size(), 5u);
    EXPECT_EQ(choices[1].text.toStdString(), "1 beat");
    EXPECT_EQ(choices.back().value, 4);
}

TEST(PillMenu, OffersYoursTheRecordsSpeedOrItsOwn) {
    const auto choices = tradeChoices({50, 100});
    ASSERT_EQ(choices.size(), 3u);
    EXPECT_EQ(choices[0].value, asTheRecord);
    EXPECT_EQ(choices[1].text.toStdString(), "50 %");
}

} // namespace
} // namespace earwright::ui
