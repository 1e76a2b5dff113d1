#include "ui/theme/Contrast.h"

#include <gtest/gtest.h>

using namespace earwright::ui;

TEST(Contrast, SpansOneToTwentyOne) {
    EXPECT_NEAR(contrastRatio(Qt::black, Qt::white), 21.0, 1e-9);
    EXPECT_NEAR(contrastRatio(QColor(0x12, 0x34, 0x56), QColor(0x12, 0x34, 0x56)), 1.0, 1e-9);
}

// Understanding SC 1.4.3 (WCAG 2.2): #767676 is the lightest grey that passes 4.5:1 on white, and #949494
// the lightest that passes 3:1 (Understanding SC 1.4.11).
TEST(Contrast, AgreesWithTheGreysOfTheGuidelines) {
    EXPECT_GE(contrastRatio(QColor(0x76, 0x76, 0x76), Qt::white), 4.5);
    EXPECT_LT(contrastRatio(QColor(0x77, 0x77, 0x77), Qt::white), 4.5);
    EXPECT_GE(contrastRatio(QColor(0x94, 0x94, 0x94), Qt::white), 3.0);
    EXPECT_LT(contrastRatio(QColor(0x95, 0x95, 0x95), Qt::white), 3.0);
}

// Luminances of the sRGB primaries are the weights of the formula themselves.
TEST(Contrast, WeighsTheColoursAsTheEyeDoes) {
    EXPECT_NEAR(relativeLuminance(Qt::red), 0.2126, 1e-9);
    EXPECT_NEAR(relativeLuminance(Qt::green), 0.7152, 1e-9);
    EXPECT_NEAR(relativeLuminance(Qt::blue), 0.0722, 1e-9);
}

TEST(Contrast, DoesNotDependOnTheOrder) {
    EXPECT_EQ(contrastRatio(Qt::red, Qt::white), contrastRatio(Qt::white, Qt::red));
}
