#include "ui/strip/StripTool.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

// Ten pixels a second from x = 12.
const StripGeometry strip(QSizeF(1024, 60), Seconds(100));

TEST(StripTool, SeeksOnAClickEvenIfTheHandTrembles) {
    StripTool tool;
    tool.press(512, strip, std::nullopt);
    EXPECT_EQ(tool.move(514, strip), std::nullopt);
    const auto wish = tool.release(514, strip);
    ASSERT_TRUE(wish.seek);
    EXPECT_NEAR(wish.seek->value, 50.2, 1e-9);
    EXPECT_FALSE(wish.loop);
}

TEST(StripTool, ChoosesALoopByDraggingEitherWay) {
    StripTool tool;
    tool.press(512, strip, std::nullopt);
    tool.move(462, strip);
    const auto wish = tool.release(412, strip);
    ASSERT_TRUE(wish.loop);
    EXPECT_NEAR(wish.loop->begin.value, 40, 1e-9);
    EXPECT_NEAR(wish.loop->end.value, 50, 1e-9);
    EXPECT_FALSE(wish.seek);
}

TEST(StripTool, MovesOneEdgeAndLeavesTheOther) {
    StripTool tool;
    tool.press(213, strip, Range{Seconds(20), Seconds(30)});
    const auto shown = tool.move(192, strip);
    ASSERT_TRUE(shown);
    EXPECT_NEAR(shown->begin.value, 18, 1e-9);
    EXPECT_NEAR(shown->end.value, 30, 1e-9);
    // Pulled past its end, the edge becomes the end.
    const auto wish = tool.release(412, strip);
    ASSERT_TRUE(wish.loop);
    EXPECT_NEAR(wish.loop->begin.value, 30, 1e-9);
    EXPECT_NEAR(wish.loop->end.value, 40, 1e-9);
}

TEST(StripTool, AsksForNothingOnceGivenUp) {
    StripTool tool;
    tool.press(512, strip, std::nullopt);
    tool.move(600, strip);
    tool.cancel();
    const auto wish = tool.release(600, strip);
    EXPECT_FALSE(wish.seek);
    EXPECT_FALSE(wish.loop);
}

} // namespace
} // namespace earwright::ui
