// Signs of music among words.
#include "core/engraving/SignedText.h"

#include "MusicFont.h"
#include "core/engraving/Extent.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(SignedText, KeepsACircleClearOfTheSharpBeforeIt) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    for (const char* symbol : {"C♯°7", "E♭ø"}) {
        const SignedText made = signedText(symbol, 3, TextRole::ChordSymbol, font);
        ASSERT_EQ(made.shapes.glyphs.size(), 2u) << symbol;
        const PageBox sign = boxOf(made.shapes.glyphs[0], font);
        const PageBox circle = boxOf(made.shapes.glyphs[1], font);
        EXPECT_GE(circle.left - sign.right, 0.3) << symbol;
        EXPECT_LE(circle.left - sign.right, 0.6) << symbol;
    }
}

TEST(SignedText, IsAsWideAsItsRow) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    const SignedText made = signedText("F♯°7", 3, TextRole::ChordSymbol, font);
    EXPECT_GE(made.width, extentOf(made.shapes, font).right);
}

} // namespace
} // namespace earwright
