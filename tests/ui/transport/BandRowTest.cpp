#include "ui/transport/BandRow.h"

#include "ui/theme/QuietButton.h"
#include "ui/transport/Stepper.h"

#include <QSignalSpy>

#include <gtest/gtest.h>

using namespace earwright::ui;

// Scientific pitch notation: MIDI 60 is C4. The piano ends at C8 (common practice).
TEST(BandRow, NamesEdgesAsNotesUpToTheTopOfThePiano) {
    EXPECT_EQ(BandRow::edgeText(46).toStdString(), "B♭2");
    EXPECT_EQ(BandRow::edgeText(108).toStdString(), "C8");
    EXPECT_EQ(BandRow::edgeText(BandEdges::lowest).toStdString(), "open");
    EXPECT_EQ(BandRow::edgeText(BandEdges::highest).toStdString(), "open");
}

TEST(BandRow, ShowsABandWhenToldAndAsksForOneWhenClicked) {
    BandRow row;
    QSignalSpy asked(&row, &BandRow::useChosen);
    row.show(BandUse::Only, {46, 79});
    EXPECT_TRUE(row.button(BandUse::Only)->isChecked());
    EXPECT_EQ(row.low()->text().toStdString(), "B♭2");
    EXPECT_EQ(asked.count(), 0);
    row.button(BandUse::Without)->click();
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked[0][0].value<BandUse>(), BandUse::Without);
}

TEST(BandRow, StepsAnEdgeByASemitone) {
    BandRow row;
    row.show(BandUse::Only, {46, 79});
    QSignalSpy asked(&row, &BandRow::edgesChosen);
    row.low()->higherButton()->click();
    row.high()->lowerButton()->click();
    ASSERT_EQ(asked.count(), 2);
    EXPECT_EQ(asked[0][0].value<BandEdges>(), (BandEdges{47, 79}));
    EXPECT_EQ(asked[1][0].value<BandEdges>(), (BandEdges{46, 78}));
}

TEST(BandRow, PushesTheOtherEdgeOnWhereTheyMeet) {
    BandRow row;
    row.show(BandUse::Only, {60, 60});
    QSignalSpy asked(&row, &BandRow::edgesChosen);
    row.low()->higherButton()->click();
    EXPECT_EQ(asked[0][0].value<BandEdges>(), (BandEdges{61, 61}));
    EXPECT_EQ((BandEdges{130, 10}).playable(), (BandEdges{BandEdges::highest, BandEdges::highest}));
}

TEST(BandRow, OffersNoEdgesWithoutABand) {
    BandRow row;
    row.show(BandUse::Off, {});
    EXPECT_FALSE(row.low()->isEnabled());
    EXPECT_FALSE(row.high()->isEnabled());
}
