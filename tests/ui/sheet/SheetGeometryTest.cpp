#include "ui/sheet/SheetGeometry.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

/// 800 pixels of bars between margins of 10: 200 a bar, 50 a beat.
SheetMetrics metrics() {
    SheetMetrics sizes;
    sizes.width = 820;
    sizes.margin = 10;
    return sizes;
}

/// Bar 1 takes two seconds, bar 2 three: a band that slows down.
Study slowingStudy() {
    Study study;
    study.beatMap = BeatMap(
        {{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}, {Beats(8), Seconds(5)}, {Beats(12), Seconds(7)}});
    return study;
}

SheetGeometry geometryOf(const Study& study, double duration) {
    return SheetGeometry(study, Seconds(duration), {4, Seconds(8)}, metrics());
}

TEST(SheetGeometry, SpacesBeatsEvenlyWhateverTheTempo) {
    const SheetGeometry sheet = geometryOf(slowingStudy(), 30);
    EXPECT_DOUBLE_EQ(sheet.x(0, Seconds(0)), 10);
    EXPECT_DOUBLE_EQ(sheet.x(0, Seconds(2)), 210);
    EXPECT_DOUBLE_EQ(sheet.x(0, Seconds(3.5)), 310); // half of bar 2
    EXPECT_DOUBLE_EQ(sheet.x(0, Seconds(5)), 410);
    EXPECT_DOUBLE_EQ(sheet.barX(0, 3), 410);
}

TEST(SheetGeometry, SpacesSecondsEvenlyWithoutBars) {
    const SheetGeometry sheet = geometryOf(Study{}, 30);
    EXPECT_DOUBLE_EQ(sheet.x(0, Seconds(4)), 410);
    EXPECT_DOUBLE_EQ(sheet.x(1, Seconds(10)), 210);
    EXPECT_EQ(sheet.lineOf(Seconds(10)), 1u);
}

TEST(SheetGeometry, FindsTheTimeItPutThere) {
    const SheetGeometry sheet = geometryOf(slowingStudy(), 40);
    for (double t = 0.1; t < 39; t += 0.37) {
        const std::size_t line = sheet.lineOf(Seconds(t));
        const QPointF place(sheet.x(line, Seconds(t)), sheet.box(line).center().y());
        EXPECT_NEAR(sheet.timeAt(place).value, t, 1e-9) << t;
    }
}

TEST(SheetGeometry, KeepsAPointBesideALineOnThatLine) {
    const SheetGeometry sheet = geometryOf(slowingStudy(), 30);
    const double y = sheet.box(0).center().y();
    EXPECT_EQ(sheet.timeAt({-50, y}), Seconds(0));
    EXPECT_NEAR(sheet.timeAt({2000, y}).value, 9, 1e-9); // bar 5 starts at 9 s
}

TEST(SheetGeometry, NeverPointsBehindTheRecordingsEnd) {
    const SheetGeometry sheet = geometryOf(slowingStudy(), 8);
    EXPECT_EQ(sheet.timeAt({810, sheet.box(0).center().y()}), Seconds(8));
}

TEST(SheetGeometry, CutsAStretchAtLineEnds) {
    const SheetGeometry sheet = geometryOf(slowingStudy(), 60);
    // Bars 4 and 5: from 7 s to 11 s, over the end of the first line at 9 s.
    const auto pieces = sheet.segments({Seconds(7), Seconds(11)});
    ASSERT_EQ(pieces.size(), 2u);
    EXPECT_DOUBLE_EQ(pieces[0].left, 610);
    EXPECT_DOUBLE_EQ(pieces[0].right, 810);
    EXPECT_TRUE(pieces[0].begins);
    EXPECT_FALSE(pieces[0].ends);
    EXPECT_DOUBLE_EQ(pieces[1].left, 10);
    EXPECT_DOUBLE_EQ(pieces[1].right, 210);
    EXPECT_FALSE(pieces[1].begins);
    EXPECT_TRUE(pieces[1].ends);
}

TEST(SheetGeometry, GivesAStretchThatEndsAtALineEndOnePieceOnly) {
    const SheetGeometry sheet = geometryOf(slowingStudy(), 60);
    EXPECT_EQ(sheet.segments({Seconds(2), Seconds(9)}).size(), 1u);
    EXPECT_TRUE(sheet.segments({Seconds(2), Seconds(2)}).empty());
}

TEST(SheetGeometry, LeavesSplintersOutWhereAStretchGoesOnBeyondThem) {
    const SheetGeometry sheet = geometryOf(slowingStudy(), 60);
    // Bar 5 begins at 9 s on the second line; 8.98 s is two pixels before the first line's end.
    const auto pieces = sheet.segments({Seconds(8.98), Seconds(11)});
    ASSERT_EQ(pieces.size(), 1u);
    EXPECT_EQ(pieces[0].line, 1u);
    EXPECT_TRUE(pieces[0].begins);
    EXPECT_TRUE(pieces[0].ends);
    // A stretch that is nothing but a splinter stays.
    EXPECT_EQ(sheet.segments({Seconds(8.98), Seconds(9)}).size(), 1u);
}

TEST(SheetGeometry, StacksRowsWithoutOverlap) {
    Study study = slowingStudy();
    study.spans = {{SpanId{1}, SpanKind::Chorus, "one", {Seconds(0), Seconds(25)}}};
    const SheetGeometry sheet = geometryOf(study, 60);
    for (std::size_t line = 0; line < sheet.lines().size(); ++line) {
        EXPECT_LE(sheet.heading(line).bottom(), sheet.chordRow(line).top());
        EXPECT_LE(sheet.chordRow(line).bottom(), sheet.box(line).top());
        EXPECT_LE(sheet.box(line).bottom(), sheet.bracketRow(line).top());
        EXPECT_DOUBLE_EQ(sheet.bracketRow(line).bottom(), sheet.lineBand(line).bottom());
        EXPECT_EQ(sheet.lineAt(sheet.box(line).center().y()), line);
    }
    EXPECT_GT(sheet.heading(0).height(), 0);
    EXPECT_EQ(sheet.heading(1).height(), 0);
    EXPECT_DOUBLE_EQ(sheet.height(), sheet.lineBand(sheet.lines().size() - 1).bottom());
}

TEST(SheetGeometry, MakesAShortLineAsWideAsItsBars) {
    Study study = slowingStudy();
    study.spans = {{SpanId{1}, SpanKind::Chorus, "one", {Seconds(5), Seconds(25)}}};
    const SheetGeometry sheet = geometryOf(study, 60);
    EXPECT_DOUBLE_EQ(sheet.box(0).width(), 400); // bars 1 and 2
    EXPECT_DOUBLE_EQ(sheet.box(1).width(), 800);
}

TEST(SheetGeometry, KnowsWhereOnALineThereIsRecording) {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(3)}, {Beats(4), Seconds(5)}});
    const SheetGeometry sheet = geometryOf(study, 12);
    // Bar 1 at 3 s, so the pickup line of bars −3 to 0 is silent up to 0 s, one and a half bars before its
    // end.
    EXPECT_NEAR(sheet.sounding(0).left(), 10 + 2.5 * 200, 1e-9);
    EXPECT_NEAR(sheet.sounding(0).right(), 810, 1e-9);
    // The last line starts at 11 s with bar 5 and ends with the recording, half a bar later.
    EXPECT_NEAR(sheet.sounding(2).right(), 10 + 0.5 * 200, 1e-9);
}

TEST(SheetMetrics, LetABluesChorusFillTheView) {
    const SheetMetrics sizes = SheetMetrics::filling(1000, 700);
    const double line = sizes.pillRow + sizes.chordRow + sizes.box + sizes.bracketRow;
    EXPECT_DOUBLE_EQ(3 * line + sizes.headingRow + sizes.topMargin, 700);
    EXPECT_DOUBLE_EQ(SheetMetrics::filling(1000, 200).box, 100);
    EXPECT_DOUBLE_EQ(SheetMetrics::filling(1000, 3000).box, 200);
}

} // namespace
} // namespace earwright::ui
