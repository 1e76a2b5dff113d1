#include "ui/sheet/SheetLines.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

/// Bar 1 at `start`, two seconds a bar (4/4 at 120 beats a minute).
Study studyWithBars(double start) {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(start)}, {Beats(4), Seconds(start + 2)}});
    return study;
}

Span span(SpanKind kind, double begin, double end, std::uint64_t id = 1) {
    return {SpanId{id}, kind, "x", {Seconds(begin), Seconds(end)}};
}

TEST(SheetLines, AreEqualSecondsBeforeBarsAreMarked) {
    const auto lines = breakIntoLines(Study{}, Seconds(20), {4, Seconds(8)});
    ASSERT_EQ(lines.size(), 3u);
    EXPECT_FALSE(lines[0].bars);
    EXPECT_EQ(lines[2].time, (Range{Seconds(16), Seconds(24)}));
}

TEST(SheetLines, HaveFourBarsFromBarOneOn) {
    const auto lines = breakIntoLines(studyWithBars(0), Seconds(24), {4, Seconds(8)});
    ASSERT_EQ(lines.size(), 3u);
    EXPECT_EQ(lines[0].bars, (BarRun{1, 4}));
    EXPECT_EQ(lines[2].bars, (BarRun{9, 4}));
    EXPECT_EQ(lines[2].time, (Range{Seconds(16), Seconds(24)}));
}

TEST(SheetLines, CountBackFromBarOneForThePickup) {
    // One second before bar 1 is half of bar 0, which stands last in a line of bars −3 to 0.
    const auto lines = breakIntoLines(studyWithBars(1), Seconds(9), {4, Seconds(8)});
    ASSERT_EQ(lines.size(), 2u);
    EXPECT_EQ(lines[0].bars, (BarRun{-3, 4}));
    EXPECT_EQ(lines[1].bars, (BarRun{1, 4}));
}

TEST(SheetLines, StartAnewWithEachChorusSoThatItsBarsStandUnderEachOther) {
    Study study = studyWithBars(0);
    study.spans = {span(SpanKind::Section, 0, 12, 1), span(SpanKind::Chorus, 12, 36, 2),
                   span(SpanKind::Chorus, 36, 60, 3)};
    const auto lines = breakIntoLines(study, Seconds(60), {4, Seconds(8)});
    // Six bars of introduction (4 + 2), then two choruses of twelve (4 + 4 + 4 each).
    ASSERT_EQ(lines.size(), 8u);
    EXPECT_EQ(lines[1].bars, (BarRun{5, 2}));
    EXPECT_EQ(lines[2].bars, (BarRun{7, 4}));
    EXPECT_EQ(lines[2].begins.front().id, SpanId{2});
    EXPECT_EQ(lines[5].bars, (BarRun{19, 4}));
    EXPECT_EQ(lines[5].begins.front().id, SpanId{3});
    EXPECT_TRUE(lines[6].begins.empty());
}

TEST(SheetLines, PutAChorusMarkedALittleOffOnTheNearestBarLine) {
    Study study = studyWithBars(0);
    study.spans = {span(SpanKind::Chorus, 3.8, 28, 1)};
    const auto lines = breakIntoLines(study, Seconds(28), {4, Seconds(8)});
    EXPECT_EQ(lines[0].bars, (BarRun{1, 2}));
    EXPECT_EQ(lines[1].bars, (BarRun{3, 4}));
}

TEST(SheetLines, LeaveNoGapAndNoOverlap) {
    Study study = studyWithBars(3.3);
    study.spans = {span(SpanKind::Chorus, 7.3, 31.3, 1), span(SpanKind::Section, 31.3, 40, 2)};
    const auto lines = breakIntoLines(study, Seconds(55), {4, Seconds(8)});
    EXPECT_LE(lines.front().time.begin, Seconds(0));
    EXPECT_GE(lines.back().time.end, Seconds(55));
    for (std::size_t i = 1; i < lines.size(); ++i) {
        EXPECT_NEAR(lines[i].time.begin.value, lines[i - 1].time.end.value, 1e-9) << i;
        EXPECT_EQ(lines[i].bars->first, lines[i - 1].bars->first + lines[i - 1].bars->count) << i;
    }
}

TEST(SheetLines, ShowAtLeastOneLineOfAnEmptyRecording) {
    EXPECT_EQ(breakIntoLines(Study{}, Seconds(0), {}).size(), 1u);
    EXPECT_EQ(breakIntoLines(studyWithBars(0), Seconds(0), {}).size(), 1u);
}

} // namespace
} // namespace earwright::ui
