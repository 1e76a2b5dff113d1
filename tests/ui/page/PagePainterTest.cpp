#include "ui/page/PagePainter.h"

#include <QImage>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

constexpr int pixelsOfSpace = 50;

class PagePainterTest : public testing::Test {
protected:
    void SetUp() override {
        auto loaded = MusicFont::load();
        if (!loaded) GTEST_SKIP() << loaded.error().message;
        font = *loaded;
        look.selected = Qt::red;
    }

    /// Six spaces by six around a curve.
    QImage painted(const PlacedCurve& curve, const std::set<NoteId>& selected = {}) {
        QImage image(6 * pixelsOfSpace, 6 * pixelsOfSpace, QImage::Format_RGB32);
        image.fill(Qt::white);
        QPainter painter(&image);
        painter.scale(pixelsOfSpace, pixelsOfSpace);
        PlacedShapes shapes;
        shapes.curves.push_back(curve);
        paintShapes(painter, shapes, *font, look, selected);
        return image;
    }

    /// Of the ink in its middle row, in spaces.
    static double widthInTheMiddle(const QImage& image) {
        int dark = 0;
        for (int x = 0; x < image.width(); ++x)
            dark += qGray(image.pixel(x, image.height() / 2)) < 128 ? 1 : 0;
        return static_cast<double>(dark) / pixelsOfSpace;
    }

    std::shared_ptr<MusicFont> font;
    PageLook look;
};

constexpr PlacedCurve upright{{{{3, 1}, {2.4, 2}, {2.4, 4}, {3, 5}}}, 0.06, 0.4, NoteId{7}};
constexpr PlacedCurve level{{{{1, 3}, {2, 2.4}, {4, 2.4}, {5, 3}}}, 0.06, 0.4, {}};

TEST_F(PagePainterTest, ThickensCurvesInTheirMiddleWhicheverWayTheyGo) {
    EXPECT_NEAR(widthInTheMiddle(painted(upright)), 0.4, 0.05);
    const QImage turned = painted(level).transformed(QTransform().rotate(90));
    EXPECT_NEAR(widthInTheMiddle(turned), 0.4, 0.05);
}

TEST_F(PagePainterTest, ColoursTheCurveOfASelectedNote) {
    const auto hasRed = [](const QImage& image) {
        for (int x = 0; x < image.width(); ++x)
            if (image.pixelColor(x, image.height() / 2) == QColor(Qt::red)) return true;
        return false;
    };
    EXPECT_FALSE(hasRed(painted(upright, {NoteId{8}})));
    EXPECT_TRUE(hasRed(painted(upright, {NoteId{7}})));
}

} // namespace
} // namespace earwright::ui
