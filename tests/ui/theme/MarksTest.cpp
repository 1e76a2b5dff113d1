#include "ui/theme/Marks.h"

#include <QImage>

#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

using namespace earwright::ui;

namespace {

const QColor mark("#0f6b66");
const QColor ground("#fffdf8");
constexpr double radius = 20;
constexpr QPointF centre(32, 32);

QImage drawn(HeadShape shape) {
    QImage image(64, 64, QImage::Format_RGB32);
    image.fill(ground);
    QPainter painter(&image);
    paintHead(painter, centre, radius, shape, mark, ground);
    return image;
}

bool isMark(const QImage& image, QPointF place) {
    return image.pixelColor(place.toPoint()).lightness() < (mark.lightness() + ground.lightness()) / 2;
}

/// Changes between mark and ground on the way around the middle of the ring's stroke.
int changesAround(const QImage& image) {
    const double ring = radius * 0.82;
    int changes = 0;
    bool last = isMark(image, centre + QPointF(ring, 0));
    for (int step = 1; step <= 720; ++step) {
        const double angle = step * std::numbers::pi / 360;
        const bool now = isMark(image, centre + QPointF(std::cos(angle), std::sin(angle)) * ring);
        changes += now != last ? 1 : 0;
        last = now;
    }
    return changes;
}

} // namespace

TEST(Marks, ASupportedHeadIsFull) {
    const QImage image = drawn(HeadShape::Full);
    EXPECT_TRUE(isMark(image, centre));
    EXPECT_EQ(changesAround(image), 0);
}

TEST(Marks, AnUnclearHeadIsAHollowRingOfDots) {
    const QImage image = drawn(HeadShape::Dotted);
    EXPECT_FALSE(isMark(image, centre));
    EXPECT_GE(changesAround(image), 12); // at least six dots
}

TEST(Marks, AContradictedHeadIsAClosedRingStruckThrough) {
    const QImage image = drawn(HeadShape::Struck);
    EXPECT_EQ(changesAround(image), 0);
    EXPECT_TRUE(isMark(image, centre));
    EXPECT_FALSE(isMark(image, centre + QPointF(8, 8)));
    const double beyond = radius * 1.05;
    EXPECT_TRUE(isMark(image, centre + QPointF(beyond, -beyond)));
}

TEST(Marks, AHeadThatWasNotJudgedIsAClosedRingAndNothingElse) {
    const QImage image = drawn(HeadShape::Open);
    EXPECT_EQ(changesAround(image), 0);
    EXPECT_FALSE(isMark(image, centre));
    const double beyond = radius * 1.05;
    EXPECT_FALSE(isMark(image, centre + QPointF(beyond, -beyond)));
}

TEST(Marks, ASettledLooseEndIsAHollowFlag) {
    for (const bool settled : {false, true}) {
        QImage image(64, 64, QImage::Format_RGB32);
        image.fill(ground);
        QPainter painter(&image);
        paintFlag(painter, {16, 56}, 40, mark, settled);
        painter.end();
        EXPECT_TRUE(isMark(image, {16, 50})) << "the pole stands";
        EXPECT_EQ(isMark(image, {28, 28}), !settled);
    }
}

TEST(Marks, AnOnsetPointsDownToItsPlace) {
    QImage image(64, 64, QImage::Format_RGB32);
    image.fill(ground);
    QPainter painter(&image);
    paintOnset(painter, {32, 40}, 16, mark);
    painter.end();
    EXPECT_TRUE(isMark(image, {32, 36}));
    EXPECT_TRUE(isMark(image, {26, 26}));
    EXPECT_FALSE(isMark(image, {26, 38}));
    EXPECT_FALSE(isMark(image, {32, 43}));
}
