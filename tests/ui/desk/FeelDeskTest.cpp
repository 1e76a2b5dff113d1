#include "ui/desk/FeelDesk.h"

#include "tests/ui/Picture.h"
#include "tests/ui/desk/TonesDesk.h"
#include "ui/grid/FeelLine.h"

namespace earwright::ui {
namespace {

class FeelDeskTest : public TonesDesk {
protected:
    QString told() { return window->panel().feel()->text(); }
};

TEST_F(FeelDeskTest, TellsTheFeelOfAPhraseOnlyWhenAsked) {
    writeTheLine();
    EXPECT_TRUE(told().isEmpty());
    press(Qt::Key_C, Qt::ShiftModifier);
    ASSERT_TRUE(soon([&] { return !told().isEmpty(); }));
    // Four quarters on the beat: enough for their placement, and no pair of eighths at all.
    EXPECT_TRUE(told().contains("the beat (±")) << told().toStdString();
    EXPECT_TRUE(told().contains("4 notes")) << told().toStdString();
    EXPECT_TRUE(told().contains("Too few pairs of eighths are heard to tell the swing: 0 of the 4"))
        << told().toStdString();
    EXPECT_TRUE(window->panel().feel()->isVisible());
    keepPicture(*window, "feel-of-a-phrase.png");
}

TEST_F(FeelDeskTest, TakesItBackWhenTheLineIsWrittenOtherwise) {
    writeTheLine();
    press(Qt::Key_C, Qt::ShiftModifier);
    ASSERT_TRUE(soon([&] { return !told().isEmpty(); }));
    press(Qt::Key_Down, Qt::AltModifier);
    EXPECT_TRUE(told().isEmpty());
    EXPECT_FALSE(window->panel().feel()->isVisible());
}

TEST_F(FeelDeskTest, SaysThatNothingIsWrittenYet) {
    markBarsAndPhrase();
    earTo(2.6);
    press(Qt::Key_C, Qt::ShiftModifier);
    EXPECT_TRUE(window->messages().sentence("notice").contains("Nothing is written"));
    EXPECT_TRUE(told().isEmpty());
}

TEST(FeelText, SaysRatioSpreadAndPlacementInWords) {
    Feel feel;
    feel.swing = SwingFeel{1.62, 1.38, 1.94, Seconds(0.1684), 12};
    feel.placement = BeatPlacement{Seconds(0.0281), Seconds(0.0119), 9};
    EXPECT_EQ(feelText(feel),
              "Eighths 1.6 to 1 (1.4 to 1.9), the short one 168 ms: 12 pairs. 28 ms behind the "
              "beat (± 12): 9 notes.");
    feel.placement->behind = Seconds(-0.0196);
    EXPECT_TRUE(feelText(feel).contains("20 ms ahead of the beat"));
}

} // namespace
} // namespace earwright::ui
