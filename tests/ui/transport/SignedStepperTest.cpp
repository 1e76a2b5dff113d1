#include "ui/transport/SignedStepper.h"

#include "ui/theme/QuietButton.h"

#include <QSignalSpy>
#include <QTest>

#include <gtest/gtest.h>

using namespace earwright::ui;

TEST(SignedStepper, ShowsItsSign) {
    SignedStepper stepper("Semitones", 12);
    EXPECT_EQ(stepper.text().toStdString(), "0");
    stepper.setValue(2);
    EXPECT_EQ(stepper.text().toStdString(), "+2");
    stepper.setValue(-3);
    EXPECT_EQ(stepper.text().toStdString(), "−3");
}

TEST(SignedStepper, AsksForTheNextValueAndWaitsToBeTold) {
    SignedStepper stepper("Semitones", 12);
    QSignalSpy asked(&stepper, &SignedStepper::chosen);
    stepper.higherButton()->click();
    stepper.lowerButton()->click();
    ASSERT_EQ(asked.count(), 2);
    EXPECT_EQ(asked[0][0].toInt(), 1);
    EXPECT_EQ(asked[1][0].toInt(), -1);
    EXPECT_EQ(stepper.value(), 0);
}

TEST(SignedStepper, StopsAtItsLimit) {
    SignedStepper stepper("Cents", 100);
    stepper.setValue(140);
    EXPECT_EQ(stepper.value(), 100);
    EXPECT_FALSE(stepper.higherButton()->isEnabled());
    EXPECT_TRUE(stepper.lowerButton()->isEnabled());
}

TEST(SignedStepper, GoesBackToZeroFromItsNumber) {
    SignedStepper stepper("Cents", 100);
    stepper.setValue(-31);
    QSignalSpy asked(&stepper, &SignedStepper::chosen);
    stepper.valueButton()->click();
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked[0][0].toInt(), 0);
}
