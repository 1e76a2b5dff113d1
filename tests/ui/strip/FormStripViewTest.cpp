#include "ui/strip/FormStripView.h"

#include "ui/theme/Theme.h"

#include <QApplication>
#include <QImage>
#include <QSignalSpy>
#include <QTest>
#include <QToolButton>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

class FormStripViewTest : public testing::Test {
protected:
    void SetUp() override {
        applyTheme(*qApp, Appearance::Light);
        strip.resize(1024, 60);
        strip.setRecording(Seconds(100), [](const Range<Seconds>& range) -> std::optional<float> {
            if (range.begin > Seconds(50)) return std::nullopt;
            return 0.8F;
        });
    }

    int count(const QRect& area, Role role) {
        const QImage image = strip.grab().toImage();
        int found = 0;
        for (int y = area.top(); y <= area.bottom(); ++y)
            for (int x = area.left(); x <= area.right(); ++x)
                found += image.pixelColor(x, y).rgb() == color(role).rgb() ? 1 : 0;
        return found;
    }

    FormStripView strip;
};

TEST_F(FormStripViewTest, DrawsLevelsAsFarAsTheyAreKnown) {
    EXPECT_GT(count({100, 20, 300, 25}, Role::Recording), 200);
    EXPECT_EQ(count({600, 20, 300, 25}, Role::Recording), 0);
}

TEST_F(FormStripViewTest, ShowsTheLoopInItsOwnColourAndTheEarInInk) {
    auto study = std::make_shared<Study>();
    study->practice.loop = Range{Seconds(60), Seconds(70)};
    strip.setStudy(study);
    strip.setHeard(Seconds(65));
    EXPECT_GT(count({600, 1, 20, 57}, Role::Loop), 40);
    EXPECT_GT(count({655, 1, 16, 57}, Role::Ink), 10);
    EXPECT_GT(count({630, 20, 20, 20}, Role::LoopWash), 300);
}

TEST_F(FormStripViewTest, HasAHairlineWhileTheKeyboardIsInIt) {
    strip.show();
    strip.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&strip));
    strip.clearFocus();
    const QRect leftEdge(0, 15, 1, 30);
    EXPECT_EQ(count(leftEdge, Role::Ink), 0);
    strip.setFocus();
    EXPECT_EQ(count(leftEdge, Role::Ink), 30);
}

TEST_F(FormStripViewTest, AsksForThePlaceClicked) {
    QSignalSpy seeks(&strip, &FormStripView::seekRequested);
    QTest::mouseClick(&strip, Qt::LeftButton, {}, QPoint(512, 30));
    ASSERT_EQ(seeks.size(), 1);
    EXPECT_NEAR(seeks[0][0].value<Seconds>().value, 50, 1e-9);
}

TEST_F(FormStripViewTest, OffersToStopDrawingWhileItDraws) {
    auto* cancel = strip.findChild<QToolButton*>();
    QSignalSpy cancelled(&strip, &FormStripView::drawingCancelled);
    EXPECT_TRUE(cancel->isHidden());
    strip.setDrawn(0.4);
    EXPECT_FALSE(cancel->isHidden());
    QTest::mouseClick(cancel, Qt::LeftButton);
    EXPECT_EQ(cancelled.size(), 1);
}

} // namespace
} // namespace earwright::ui
