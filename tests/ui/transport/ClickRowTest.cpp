#include "ui/transport/ClickRow.h"

#include "ui/theme/QuietButton.h"
#include "ui/transport/SignedStepper.h"

#include <QSignalSpy>

#include <gtest/gtest.h>

using namespace earwright::ui;

TEST(ClickRow, HasNoBeatToClickBeforeBarsAreMarkedAndSaysWhy) {
    ClickRow row;
    EXPECT_FALSE(row.isEnabled());
    EXPECT_TRUE(row.clicksButton()->toolTip().contains("Mark bars first"));
    row.setHasBeats(true);
    EXPECT_TRUE(row.isEnabled());
    EXPECT_FALSE(row.clicksButton()->toolTip().contains("Mark bars first"));
}

TEST(ClickRow, ShowsWhatItIsToldAndAsksForTheRest) {
    ClickRow row;
    row.setHasBeats(true);
    row.show(true, -6, 4);
    EXPECT_TRUE(row.clicksButton()->isChecked());
    EXPECT_EQ(row.level()->value(), -6);
    EXPECT_EQ(row.countIn()->value(), 4);
    QSignalSpy clicks(&row, &ClickRow::clicksChosen);
    QSignalSpy level(&row, &ClickRow::levelChosen);
    QSignalSpy countIn(&row, &ClickRow::countInChosen);
    row.clicksButton()->click();
    row.level()->higherButton()->click();
    row.countIn()->lowerButton()->click();
    ASSERT_EQ(clicks.count(), 1);
    EXPECT_FALSE(clicks[0][0].toBool());
    EXPECT_EQ(level[0][0].toInt(), -5);
    EXPECT_EQ(countIn[0][0].toInt(), 3);
    row.countIn()->valueButton()->click();
    EXPECT_EQ(countIn[1][0].toInt(), 0);
}
