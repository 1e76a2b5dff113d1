#include "ui/grid/SwungText.h"

#include "ui/grid/LadderPanel.h"

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

TEST(SwungText, TellsRatioSpreadAndHowItIsWritten) {
    PhraseCheck check;
    EXPECT_EQ(swungText(check), QString());
    check.unwrittenSwing = SwingFeel{2.02, 1.78, 2.31, Seconds(0.2), 8};
    EXPECT_EQ(swungText(check).toStdString(),
              "eighths swing 2:1 here (1.8 to 2.3); press Ctrl+I to write it");
}

TEST(SwungText, OffersNothingForThePageWhereThePairsDisagree) {
    PhraseCheck check;
    check.unwrittenSwing = SwingFeel{2.3, 1.3, 5, Seconds(0.2), 6};
    EXPECT_EQ(swungText(check).toStdString(), "eighths swing 2.3:1 here (1.3 to 5)");
}

TEST(SwungText, StandsInTheChecksSummary) {
    PhraseCheck check;
    check.unwrittenSwing = SwingFeel{1.5, 1.4, 1.6, Seconds(0.2), 8};
    EXPECT_TRUE(summaryText(check, 0).endsWith(swungText(check)));
    const KeyOf moved = [](CommandId) { return QKeySequence("F9"); };
    EXPECT_TRUE(summaryText(check, 0, 0, 0, moved).endsWith("press F9 to write it"));
}
