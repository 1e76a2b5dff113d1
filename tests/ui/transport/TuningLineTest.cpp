#include "ui/transport/TuningLine.h"

#include "ui/theme/QuietButton.h"

#include <QSignalSpy>

#include <gtest/gtest.h>

using namespace earwright::ui;

TEST(TuningLine, SaysWhichWayTheRecordIsOff) {
    TuningLine line;
    EXPECT_EQ(line.text().toStdString(), "not known yet");
    EXPECT_FALSE(line.playAtButton()->isEnabled());
    line.setTuning(-12.3);
    EXPECT_EQ(line.text().toStdString(), "12 cents flat");
    line.setTuning(-12.3, 29.6);
    EXPECT_EQ(line.text().toStdString(), "12 cents flat, drifts by 30");
    line.setTuning(31.0);
    EXPECT_EQ(line.text().toStdString(), "31 cents sharp");
    line.setTuning(-1.7);
    EXPECT_EQ(line.text().toStdString(), "at concert pitch");
    EXPECT_FALSE(line.playAtButton()->isEnabled());
}

TEST(TuningLine, AsksForTheReferenceAndSaysByHowManyCentsItMoves) {
    TuningLine line;
    line.setTuning(-12.3);
    EXPECT_EQ(line.playAtButton()->text().toStdString(), "play at 440");
    EXPECT_TRUE(line.playAtButton()->toolTip().contains("by 12 cents"));
    QSignalSpy asked(&line, &TuningLine::inTuneChosen);
    line.playAtButton()->click();
    ASSERT_EQ(asked.count(), 1);
    EXPECT_TRUE(asked[0][0].toBool());
}

TEST(TuningLine, SaysThatItIsInTuneAndLetsItGo) {
    TuningLine line;
    line.setTuning(-12.3);
    line.setCents(12);
    EXPECT_TRUE(line.isInTune());
    EXPECT_TRUE(line.playAtButton()->isChecked());
    EXPECT_EQ(line.text().toStdString(), "raised by 12 cents");
    QSignalSpy asked(&line, &TuningLine::inTuneChosen);
    line.playAtButton()->click();
    ASSERT_EQ(asked.count(), 1);
    EXPECT_FALSE(asked[0][0].toBool());
}

TEST(TuningLine, StepsTheReferenceAndStopsASemitoneToEitherSide) {
    TuningLine line;
    line.setTuning(-12.3);
    QSignalSpy asked(&line, &TuningLine::referenceChosen);
    line.higherButton()->click();
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked[0][0].value<ReferenceA>(), ReferenceA{441});
    line.setReference({442});
    EXPECT_EQ(line.playAtButton()->text().toStdString(), "play at 442");
    line.setReference({ReferenceA::highest});
    EXPECT_FALSE(line.higherButton()->isEnabled());
    line.setReference({ReferenceA::lowest});
    EXPECT_FALSE(line.lowerButton()->isEnabled());
}
