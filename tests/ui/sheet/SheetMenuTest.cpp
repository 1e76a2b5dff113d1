#include "ui/sheet/SheetMenu.h"

#include "tests/ui/sheet/MarkedSheet.h"

#include <gtest/gtest.h>
#include <vector>

namespace earwright::ui {
namespace {

class SheetMenuTest : public testing::Test {
protected:
    MarkedSheet sheet;
    QMenu menu;
    SheetTyping typing;
    std::vector<SheetWish> wishes;

    void fillAt(const QPointF& point) {
        fillSheetMenu(menu, sheet.model, hitAt(sheet.model, sheet.geometry, point), typing,
                      [this](const SheetWish& wish) { wishes.push_back(wish); });
    }
    QAction* action(const QString& text) {
        for (QAction* each : menu.actions())
            if (each->text() == text) return each;
        return nullptr;
    }
};

TEST_F(SheetMenuTest, RemovesTheMarkUnderIt) {
    fillAt(sheet.footAt(2));
    ASSERT_TRUE(action("Remove the mark at bar 2, beat 1"));
    action("Remove the mark at bar 2, beat 1")->trigger();
    ASSERT_EQ(wishes.size(), 1u);
    EXPECT_EQ(std::get<RemoveMarkAt>(wishes[0]).index, 1u);
}

TEST_F(SheetMenuTest, SetsMarksOnOpenGround) {
    fillAt(sheet.at(4.5));
    action("Beat here")->trigger();
    EXPECT_NEAR(std::get<MarkBeatAt>(wishes.at(0)).place.value, 4.5, 1e-9);
}

TEST_F(SheetMenuTest, OffersTheFormAgainWhereABarDiffers) {
    fillAt(sheet.at(4.5));
    EXPECT_FALSE(action("Chords of bar 3 as in the form"));
    menu.clear();
    sheet.study.chart.overrides[3] = {};
    sheet.lay();
    fillAt(sheet.at(4.5));
    ASSERT_TRUE(action("Chords of bar 3 as in the form"));
    action("Chords of bar 3 as in the form")->trigger();
    EXPECT_EQ(std::get<KeepToForm>(wishes.at(0)).bar, 3);
}

TEST_F(SheetMenuTest, ShowsNamesAsTheyAreWrittenAndTheKindWhereThereIsNone) {
    sheet.study.spans = {{SpanId{1}, SpanKind::Chorus, "call & answer", {Seconds(0), Seconds(8)}},
                         {SpanId{2}, SpanKind::Phrase, "", {Seconds(4), Seconds(6)}}};
    sheet.lay();
    fillAt(sheet.at(4.5));
    EXPECT_TRUE(action("call && answer")) << "one “&” would be a mnemonic";
    EXPECT_TRUE(action("Phrase"));
}

TEST_F(SheetMenuTest, LoopsTheStretchItIsOpenedOn) {
    sheet.model.stretch = Range{Seconds(4), Seconds(6)};
    fillAt(sheet.at(4.5));
    ASSERT_TRUE(action("Loop"));
    action("Loop")->trigger();
    EXPECT_EQ(std::get<LoopOver>(wishes.at(0)).loop, (Range{Seconds(4), Seconds(6)}));
}

} // namespace
} // namespace earwright::ui
