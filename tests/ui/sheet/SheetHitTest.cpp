#include "ui/sheet/SheetHit.h"

#include "tests/ui/sheet/MarkedSheet.h"
#include "ui/sheet/HeadingNames.h"
#include "ui/sheet/LoopPill.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

SheetHit hit(const MarkedSheet& sheet, const QPointF& point) {
    return hitAt(sheet.model, sheet.geometry, point);
}

TEST(SheetHit, FindsTheTimeAndTheBarUnderThePoint) {
    const MarkedSheet sheet;
    const SheetHit ground = hit(sheet, sheet.at(4.5));
    EXPECT_EQ(ground.part, SheetPart::Ground);
    EXPECT_NEAR(ground.place.value, 4.5, 1e-9);
    EXPECT_EQ(ground.bar, 3);
}

TEST(SheetHit, TakesMarksByTheirFeetOnly) {
    const MarkedSheet sheet;
    const SheetHit foot = hit(sheet, sheet.footAt(2.03));
    EXPECT_EQ(foot.part, SheetPart::Mark);
    EXPECT_EQ(foot.mark, 1u);
    EXPECT_EQ(hit(sheet, sheet.at(2.03)).part, SheetPart::Ground);
    // Bar 3 begins at 4 s, but nobody marked it: it follows from its neighbours.
    EXPECT_EQ(hit(sheet, sheet.footAt(4.0)).part, SheetPart::Ground);
}

TEST(SheetHit, TakesAMarkByAFootThatReachesUnderTheBox) {
    const MarkedSheet sheet;
    const QRectF box = sheet.geometry.box(0);
    for (const double y : {box.bottom() - 20, box.bottom() + 12})
        for (const double x : {210.0 - 7, 210.0 + 7})
            EXPECT_EQ(hit(sheet, {x, y}).part, SheetPart::Mark) << x << " " << y;
    EXPECT_NE(hit(sheet, {210 + 10, box.bottom() - 4}).part, SheetPart::Mark);
}

TEST(SheetHit, KnowsTheMarkAtAnyHeightOfItsLine) {
    const MarkedSheet sheet;
    EXPECT_EQ(markUnder(sheet.model, sheet.geometry, sheet.at(2.03)), 1u);
    EXPECT_FALSE(markUnder(sheet.model, sheet.geometry, sheet.at(4.0)));
    EXPECT_FALSE(markUnder(sheet.model, sheet.geometry, {210, sheet.geometry.chordRow(0).center().y()}));
}

TEST(SheetHit, TakesTheNearerLoopEdge) {
    MarkedSheet sheet;
    sheet.study.practice.loop = Range{Seconds(3), Seconds(5)};
    sheet.lay();
    EXPECT_EQ(hit(sheet, sheet.at(2.97)).part, SheetPart::LoopStart);
    EXPECT_EQ(hit(sheet, sheet.at(5.04)).part, SheetPart::LoopEnd);
    EXPECT_EQ(hit(sheet, sheet.at(4.0)).part, SheetPart::Ground);
}

TEST(SheetHit, LeavesAMarkItsFootWhereALoopBeginsOnIt) {
    MarkedSheet sheet;
    sheet.study.practice.loop = Range{Seconds(2), Seconds(5)};
    sheet.lay();
    EXPECT_EQ(hit(sheet, sheet.at(2.0)).part, SheetPart::LoopStart);
    EXPECT_EQ(hit(sheet, {210, sheet.geometry.box(0).bottom() + 4}).part, SheetPart::Mark);
}

TEST(SheetHit, FindsStepsOnThePill) {
    MarkedSheet sheet;
    sheet.study.practice.loop = Range{Seconds(3), Seconds(5)};
    sheet.lay();
    const auto pill = LoopPill::on(sheet.model, sheet.geometry);
    ASSERT_TRUE(pill);
    const SheetHit step = hit(sheet, pill->steps[1].place.center());
    EXPECT_EQ(step.part, SheetPart::PillStep);
    EXPECT_EQ(step.percent, 50);
}

TEST(SheetHit, TellsChordsPhrasesAndFlagsApart) {
    MarkedSheet sheet;
    sheet.study.spans = {{SpanId{7}, SpanKind::Phrase, "a", {Seconds(1), Seconds(3)}}};
    sheet.study.looseEnds = {{LooseEndId{9}, Seconds(6), "grace note?", false}};
    sheet.lay();
    const SheetHit chords = hit(sheet, {230, sheet.geometry.chordRow(0).center().y()});
    EXPECT_EQ(chords.part, SheetPart::Chords);
    EXPECT_EQ(chords.bar, 2);
    const SheetHit phrase = hit(sheet, {210, sheet.geometry.bracketRow(0).center().y()});
    EXPECT_EQ(phrase.part, SheetPart::Phrase);
    EXPECT_EQ(phrase.span, SpanId{7});
    const SheetHit flag = hit(sheet, {615, sheet.geometry.box(0).top() + 24});
    EXPECT_EQ(flag.part, SheetPart::LooseEnd);
    EXPECT_EQ(flag.looseEnd, LooseEndId{9});
}

TEST(SheetHit, TellsTwoNamesOverALineApart) {
    MarkedSheet sheet;
    sheet.study.spans = {{SpanId{3}, SpanKind::Section, "solo", {Seconds(0), Seconds(16)}},
                         {SpanId{4}, SpanKind::Chorus, "chorus 1", {Seconds(0), Seconds(8)}}};
    sheet.lay();
    const auto names = headingNames(sheet.model, sheet.geometry, 0);
    ASSERT_EQ(names.size(), 2u);
    for (const HeadingName& each : names) {
        EXPECT_EQ(hit(sheet, each.nameArea.center()).span, each.span);
        EXPECT_EQ(hit(sheet, each.barsArea.center()).span, each.span);
    }
    EXPECT_LT(names[0].barsArea.right(), names[1].nameArea.left());
}

TEST(SheetHit, IsNothingOnAnEmptySheet) {
    EXPECT_EQ(hitAt(SheetModel{}, SheetGeometry{}, {10, 10}).part, SheetPart::Nothing);
}

} // namespace
} // namespace earwright::ui
