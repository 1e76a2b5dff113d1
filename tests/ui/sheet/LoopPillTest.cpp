#include "ui/sheet/LoopPill.h"

#include "tests/ui/sheet/MarkedSheet.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

MarkedSheet sheetWithLoop(double begin, double end, double speed) {
    MarkedSheet sheet;
    sheet.study.practice.loop = Range{Seconds(begin), Seconds(end)};
    sheet.study.practice.speed = speed;
    sheet.lay();
    return sheet;
}

TEST(LoopPill, StandsAboveTheChordsWhereTheLoopBegins) {
    const MarkedSheet sheet = sheetWithLoop(2, 4, 0.5);
    const auto pill = LoopPill::on(sheet.model, sheet.geometry);
    ASSERT_TRUE(pill);
    EXPECT_DOUBLE_EQ(pill->outline.left(), 210);
    EXPECT_LE(pill->outline.bottom(), sheet.geometry.chordRow(0).top());
    EXPECT_GE(pill->outline.top(), 0);
}

TEST(LoopPill, MarksTheStepInUse) {
    const MarkedSheet sheet = sheetWithLoop(2, 4, 0.5);
    const auto pill = LoopPill::on(sheet.model, sheet.geometry);
    ASSERT_EQ(pill->steps.size(), 5u);
    for (const PillStep& step : pill->steps)
        EXPECT_EQ(step.chosen, step.percent == 50) << step.percent;
}

TEST(LoopPill, ShowsASpeedBetweenTheSteps) {
    const MarkedSheet sheet = sheetWithLoop(2, 4, 0.42);
    const auto pill = LoopPill::on(sheet.model, sheet.geometry);
    ASSERT_EQ(pill->steps.size(), 6u);
    EXPECT_EQ(pill->steps[1].percent, 42);
    EXPECT_TRUE(pill->steps[1].chosen);
}

TEST(LoopPill, StaysOnTheSheetAtTheEndOfALine) {
    const MarkedSheet sheet = sheetWithLoop(7.5, 7.9, 1);
    const auto pill = LoopPill::on(sheet.model, sheet.geometry);
    EXPECT_LE(pill->outline.right(), 810 + 1e-9);
}

TEST(LoopPill, SaysHowItClimbsBesideTheSteps) {
    MarkedSheet sheet = sheetWithLoop(2, 4, 0.5);
    const auto quiet = LoopPill::on(sheet.model, sheet.geometry);
    EXPECT_EQ(quiet->part(SheetPart::PillClimb)->text, "climb");
    sheet.model.climb = {5, 4, 100};
    sheet.model.climbing = true;
    const auto pill = LoopPill::on(sheet.model, sheet.geometry);
    const PillPart* climb = pill->part(SheetPart::PillClimb);
    EXPECT_EQ(climb->text, "climb to 100");
    EXPECT_GT(climb->place.width(), quiet->part(SheetPart::PillClimb)->place.width());
    EXPECT_GE(climb->place.left(), pill->steps.back().place.right());
    EXPECT_TRUE(climb->inUse);
}

TEST(LoopPill, SaysItsGapAndInTradeHowFastYoursGoes) {
    MarkedSheet sheet = sheetWithLoop(2, 4, 0.5);
    sheet.model.gapBeats = 2;
    const auto pill = LoopPill::on(sheet.model, sheet.geometry);
    EXPECT_EQ(pill->part(SheetPart::PillGap)->text, "gap 2");
    EXPECT_EQ(pill->part(SheetPart::PillTrade), nullptr);
    sheet.model.trading = true;
    EXPECT_EQ(LoopPill::on(sheet.model, sheet.geometry)->part(SheetPart::PillTrade)->text,
              "yours as the record");
    sheet.model.yoursPercent = 80;
    const auto trading = LoopPill::on(sheet.model, sheet.geometry);
    EXPECT_EQ(trading->part(SheetPart::PillTrade)->text, "yours at 80 %");
    // Side by side, in the pill.
    double x = trading->steps.back().place.right();
    for (const PillPart& part : trading->parts) {
        EXPECT_DOUBLE_EQ(part.place.left(), x);
        x = part.place.right();
        EXPECT_EQ(trading->partAt(part.place.center()), &part);
    }
    EXPECT_LE(x, trading->outline.right());
}

TEST(LoopPill, ShowsTheSpeedAClimbHasReached) {
    MarkedSheet sheet = sheetWithLoop(2, 4, 0.7);
    sheet.model.climbing = true;
    const auto pill = LoopPill::on(sheet.model, sheet.geometry);
    ASSERT_EQ(pill->steps.size(), 6u);
    EXPECT_EQ(pill->steps[3].percent, 70);
    EXPECT_TRUE(pill->steps[3].chosen);
}

TEST(LoopPill, IsNotThereWithoutALoop) {
    const MarkedSheet sheet;
    EXPECT_FALSE(LoopPill::on(sheet.model, sheet.geometry));
}

} // namespace
} // namespace earwright::ui
