#include "ui/strip/StripGeometry.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

// 1024 pixels with margins of 12: ten pixels a second for 100 s.
const StripGeometry strip(QSizeF(1024, 60), Seconds(100));

TEST(StripGeometry, LaysTheWholeRecordingFromEdgeToEdge) {
    EXPECT_DOUBLE_EQ(strip.x(Seconds(0)), 12);
    EXPECT_DOUBLE_EQ(strip.x(Seconds(50)), 512);
    EXPECT_DOUBLE_EQ(strip.x(Seconds(100)), 1012);
}

TEST(StripGeometry, FindsTheTimeUnderThePointerWithinTheRecording) {
    EXPECT_DOUBLE_EQ(strip.timeAt(512).value, 50);
    EXPECT_EQ(strip.timeAt(-40), Seconds(0));
    EXPECT_EQ(strip.timeAt(4000), Seconds(100));
}

TEST(StripGeometry, TakesHoldOfTheNearerLoopEdge) {
    const Range loop{Seconds(20), Seconds(21)}; // 212 and 222
    EXPECT_EQ(strip.edgeAt(214, loop), StripGeometry::LoopEdge::Start);
    EXPECT_EQ(strip.edgeAt(219, loop), StripGeometry::LoopEdge::End);
    EXPECT_EQ(strip.edgeAt(227, loop), StripGeometry::LoopEdge::End);
    EXPECT_EQ(strip.edgeAt(240, loop), std::nullopt);
}

TEST(StripGeometry, SurvivesARecordingWithoutLengthAndAStripWithoutWidth) {
    const StripGeometry empty(QSizeF(0, 0), Seconds(0));
    EXPECT_EQ(empty.timeAt(10), Seconds(0));
    EXPECT_DOUBLE_EQ(empty.x(Seconds(3)), 12);
}

} // namespace
} // namespace earwright::ui
