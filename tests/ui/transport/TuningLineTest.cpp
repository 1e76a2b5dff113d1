#include "ui/transport/TuningLine.h"

#include "ui/theme/QuietButton.h"

#include <QSignalSpy>

#include <gtest/gtest.h>

using namespace earwright::ui;

TEST(TuningLine, SaysWhichWayTheRecordIsOff) {
    TuningLine line;
    EXPECT_EQ(line.text().toStdString(), "not known yet");
    line.setTuning(-12.3);
    EXPECT_EQ(line.text().toStdString(), "record is 12 cents flat");
    line.setTuning(31.0);
    EXPECT_EQ(line.text().toStdString(), "record is 31 cents sharp");
    line.setTuning(-1.7);
    EXPECT_EQ(line.text().toStdString(), "record is at concert pitch");
    EXPECT_TRUE(line.matchButton()->isHidden());
}

TEST(TuningLine, MatchesAFlatRecordByRaisingIt) {
    TuningLine line;
    line.setTuning(-12.3);
    QSignalSpy asked(&line, &TuningLine::centsChosen);
    line.matchButton()->click();
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked[0][0].toInt(), 12);
}

TEST(TuningLine, SaysWhenItIsMatchedAndLetsItGo) {
    TuningLine line;
    line.setTuning(-12.3);
    line.setCents(12);
    EXPECT_EQ(line.matchButton()->text().toStdString(), "matched");
    QSignalSpy asked(&line, &TuningLine::centsChosen);
    line.matchButton()->click();
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked[0][0].toInt(), 0);
}
