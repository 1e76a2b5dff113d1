#include "core/engraving/GhostParentheses.h"

#include "MusicFont.h"
#include "core/engraving/Extent.h"
#include "core/engraving/PieceShape.h"

#include <cstdint>
#include <gtest/gtest.h>

namespace earwright {
namespace {

std::vector<StaffHead> ghosts(const std::vector<int>& positions) {
    std::vector<StaffHead> heads;
    for (const int position : positions) {
        heads.emplace_back().position = position;
        heads.back().note = {static_cast<std::uint64_t>(heads.size())};
        heads.back().phrasing.ghosted = true;
    }
    return heads;
}

constexpr double left = 0;
constexpr double right = 1.18;

TEST(GhostParentheses, StandAroundEachHead) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    // A fourth apart: their parentheses, one and a half spaces high, just fit over each other.
    const PlacedShapes signs = ghostParentheses(ghosts({0, 3}), left, right, font);
    ASSERT_EQ(signs.glyphs.size(), 4u);
    EXPECT_TRUE(signs.curves.empty());
    for (std::size_t i = 0; i < 4; ++i) {
        const PageBox box = boxOf(signs.glyphs[i], font);
        EXPECT_TRUE(box.right < left || box.left > right);
        for (std::size_t other = 0; other < i; ++other)
            EXPECT_FALSE(box.overlaps(boxOf(signs.glyphs[other], font)));
    }
}

TEST(GhostParentheses, AreOnePairAroundHeadsOfAThirdOrLess) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    for (const int interval : {1, 2}) {
        const PlacedShapes signs = ghostParentheses(ghosts({0, interval}), left, right, font);
        EXPECT_TRUE(signs.glyphs.empty());
        ASSERT_EQ(signs.curves.size(), 2u);
        EXPECT_LT(boxOf(signs.curves[0]).right, left + 0.01);
        EXPECT_GT(boxOf(signs.curves[1]).left, right - 0.01);
        for (const PlacedCurve& curve : signs.curves) {
            EXPECT_LT(boxOf(curve).top, yOfPosition(interval) - 0.5) << "over the upper head";
            EXPECT_GT(boxOf(curve).bottom, yOfPosition(0) + 0.5) << "under the lower";
            EXPECT_NEAR(boxOf(curve).width(), font.width(Smufl::NoteheadParenthesisLeft), 0.1);
            EXPECT_EQ(curve.note, NoteId{1});
            EXPECT_GE(boxesAlong(curve)[8].width(), curve.midThickness) << "upright, so thick sidewards";
        }
    }
}

TEST(GhostParentheses, LeaveOutWhatIsNotGhosted) {
    NEEDS_MUSIC_FONT;
    std::vector<StaffHead> heads = ghosts({0, 2, 7});
    heads[1].phrasing.ghosted = false;
    const PlacedShapes signs = ghostParentheses(heads, left, right, musicFont());
    ASSERT_EQ(signs.glyphs.size(), 4u);
    for (const PlacedGlyph& sign : signs.glyphs)
        EXPECT_NE(sign.at.y, yOfPosition(2));
    EXPECT_TRUE(signs.curves.empty());
}

} // namespace
} // namespace earwright
