#include "core/engraving/LedgerLines.h"

#include "MusicFont.h"
#include "core/engraving/AccidentalLayout.h"
#include "core/engraving/Extent.h"
#include "core/engraving/PieceShape.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

StaffHead headAt(int position, std::optional<int> accidental = {}) {
    StaffHead head;
    head.position = position;
    head.accidental = accidental;
    return head;
}

/// A piece of one quarter.
PieceShape shapeOf(const std::vector<StaffHead>& heads) {
    StaffPiece piece;
    piece.heads = heads;
    return pieceShape(piece, musicFont());
}

PageBox boxOf(const PlacedGlyph& glyph) {
    PlacedShapes alone;
    alone.glyphs.push_back(glyph);
    return extentOf(alone, musicFont());
}

TEST(LedgerLines, LeadToAHeadFromTheStaff) {
    NEEDS_MUSIC_FONT;
    const double beyond = musicFont().usual("legerLineExtension");
    const auto high = ledgerLines({headAt(9)}, 0, 1.18, {}, 1, musicFont());
    ASSERT_EQ(high.size(), 2u) << "two lines under the head over the second";
    EXPECT_DOUBLE_EQ(high[0].from.y, yOfPosition(6));
    EXPECT_DOUBLE_EQ(high[1].from.y, yOfPosition(8));
    EXPECT_DOUBLE_EQ(high[0].from.x, -beyond);
    EXPECT_DOUBLE_EQ(high[0].to.x, 1.18 + beyond);
    EXPECT_EQ(ledgerLines({headAt(-10)}, 0, 1.18, {}, 1, musicFont()).size(), 3u);
    EXPECT_TRUE(ledgerLines({headAt(5), headAt(-5)}, 0, 1.18, {}, 1, musicFont()).empty());
}

TEST(LedgerLines, StopShortOfTheAccidentalsBesideThem) {
    NEEDS_MUSIC_FONT;
    for (const int position : {-10, -7, -6, 6, 7, 8, 9, 10})
        for (int alter = -2; alter <= 2; ++alter) {
            const PieceShape shape = shapeOf({headAt(position, alter)});
            ASSERT_EQ(shape.shapes.glyphs.size(), 2u);
            const PageBox sign = boxOf(shape.shapes.glyphs[1]);
            ASSERT_FALSE(shape.shapes.lines.empty());
            for (const PlacedLine& line : shape.shapes.lines) {
                EXPECT_LT(line.from.x, 0) << "it is seen before the head";
                if (sign.top > line.from.y || sign.bottom < line.from.y) continue;
                EXPECT_GT(line.from.x, sign.right) << position << " with " << alter;
            }
        }
}

TEST(LedgerLines, ReachAsFarAsEverWhereNoAccidentalStands) {
    NEEDS_MUSIC_FONT;
    // A flat over the third line leaves the first one alone.
    const PieceShape shape = shapeOf({headAt(11, -1)});
    ASSERT_EQ(shape.shapes.lines.size(), 3u);
    EXPECT_DOUBLE_EQ(shape.shapes.lines[0].from.x, -musicFont().usual("legerLineExtension"));
    EXPECT_GT(shape.shapes.lines[2].from.x, shape.shapes.lines[0].from.x);
}

} // namespace
} // namespace earwright
