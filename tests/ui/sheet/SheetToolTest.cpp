#include "ui/sheet/SheetTool.h"

#include "tests/ui/sheet/MarkedSheet.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

class SheetToolTest : public testing::Test {
protected:
    MarkedSheet sheet;
    SheetTool tool;

    void press(const QPointF& point) {
        tool.press(hitAt(sheet.model, sheet.geometry, point), point, sheet.model);
    }
    void move(const QPointF& point, Catch catching = Catch::BarLines) {
        tool.move(point, catching, sheet.model, sheet.geometry);
    }
    SheetWish release(const QPointF& point, Catch catching = Catch::BarLines) {
        return tool.release(point, catching, sheet.model, sheet.geometry);
    }
};

TEST_F(SheetToolTest, HearsAPlaceOnAClick) {
    press(sheet.at(4.5));
    const SheetWish wish = release(sheet.at(4.51));
    ASSERT_TRUE(std::holds_alternative<HearFrom>(wish));
    EXPECT_NEAR(std::get<HearFrom>(wish).place.value, 4.5, 1e-9);
    EXPECT_FALSE(sheet.model.stretch);
}

TEST_F(SheetToolTest, ChoosesAStretchThatCatchesOnBarLines) {
    press(sheet.at(1.97));
    move(sheet.at(3));
    EXPECT_TRUE(sheet.model.stretch);
    const SheetWish wish = release(sheet.at(4.04));
    ASSERT_TRUE(std::holds_alternative<ChooseStretch>(wish));
    EXPECT_EQ(std::get<ChooseStretch>(wish).stretch, (Range{Seconds(2), Seconds(4)}));
}

TEST_F(SheetToolTest, CatchesOnOnsetsWhenAsked) {
    sheet.model.onsets = {Seconds(0.5), Seconds(2.6), Seconds(4.45)};
    press(sheet.at(2.57));
    const SheetWish wish = release(sheet.at(4.5), Catch::Onsets);
    ASSERT_TRUE(std::holds_alternative<ChooseStretch>(wish));
    EXPECT_EQ(std::get<ChooseStretch>(wish).stretch, (Range{Seconds(2.6), Seconds(4.45)}));
}

TEST_F(SheetToolTest, MovesALoopEdgeAndLeavesTheOther) {
    sheet.study.practice.loop = Range{Seconds(3), Seconds(5)};
    sheet.lay();
    press(sheet.at(5));
    move(sheet.at(5.5));
    EXPECT_EQ(sheet.model.draggedLoop, (Range{Seconds(3), Seconds(5.5)}));
    const SheetWish wish = release(sheet.at(5.98));
    ASSERT_TRUE(std::holds_alternative<LoopOver>(wish));
    EXPECT_EQ(std::get<LoopOver>(wish).loop, (Range{Seconds(3), Seconds(6)}));
    EXPECT_FALSE(sheet.model.draggedLoop);
}

TEST_F(SheetToolTest, MovesAMarkOnceWhenTheHandLetsGo) {
    press(sheet.footAt(2));
    move(sheet.footAt(2.2));
    EXPECT_TRUE(sheet.model.draggedMark);
    const SheetWish wish = release(sheet.footAt(2.3));
    ASSERT_TRUE(std::holds_alternative<MoveMarkTo>(wish));
    EXPECT_EQ(std::get<MoveMarkTo>(wish).index, 1u);
    EXPECT_NEAR(std::get<MoveMarkTo>(wish).place.value, 2.3, 1e-9);
    EXPECT_FALSE(sheet.model.draggedMark);
}

TEST_F(SheetToolTest, RestoresWhatWasThereWhenGivenUp) {
    sheet.model.stretch = Range{Seconds(1), Seconds(2)};
    press(sheet.at(4));
    move(sheet.at(6));
    tool.cancel(sheet.model);
    EXPECT_EQ(sheet.model.stretch, (Range{Seconds(1), Seconds(2)}));
    EXPECT_TRUE(std::holds_alternative<std::monostate>(release(sheet.at(6))));
}

TEST_F(SheetToolTest, DragsAStretchOverSeveralLines) {
    press(sheet.at(7));
    // Bar 5 starts the second line at 8 s; half a bar on is 9 s.
    const SheetWish wish = release({110, sheet.geometry.box(1).center().y()});
    ASSERT_TRUE(std::holds_alternative<ChooseStretch>(wish));
    EXPECT_NEAR(std::get<ChooseStretch>(wish).stretch->begin.value, 7, 1e-9);
    EXPECT_NEAR(std::get<ChooseStretch>(wish).stretch->end.value, 9, 1e-9);
}

TEST(NearestOnset, KeepsTheTimeWhereNoOnsetIsInReach) {
    const std::vector<Seconds> onsets{Seconds(1), Seconds(2)};
    EXPECT_EQ(nearestOnset(onsets, Seconds(1.4), Seconds(0.1)), Seconds(1.4));
    EXPECT_EQ(nearestOnset(onsets, Seconds(1.95), Seconds(0.1)), Seconds(2));
    EXPECT_EQ(nearestOnset(onsets, Seconds(2.05), Seconds(0.1)), Seconds(2));
    EXPECT_EQ(nearestOnset({}, Seconds(2.05), Seconds(0.1)), Seconds(2.05));
}

} // namespace
} // namespace earwright::ui
