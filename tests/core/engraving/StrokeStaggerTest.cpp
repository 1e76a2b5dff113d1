#include "core/engraving/StrokeStagger.h"

#include "MusicFont.h"
#include "core/engraving/Extent.h"
#include "core/engraving/PieceShape.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

std::vector<StaffHead> headsAt(const std::vector<int>& positions, bool Phrasing::*mark) {
    std::vector<StaffHead> heads;
    for (const int position : positions) {
        StaffHead head;
        head.position = position;
        head.phrasing.*mark = true;
        heads.push_back(head);
    }
    return heads;
}

PieceShape shapeOf(const std::vector<StaffHead>& heads) {
    StaffPiece piece;
    piece.heads = heads;
    return pieceShape(piece, musicFont());
}

/// Those of a glyph, as they were drawn: from the lowest head up.
std::vector<PlacedGlyph> signs(const PieceShape& shape, Smufl glyph) {
    std::vector<PlacedGlyph> found;
    for (const PlacedGlyph& one : shape.shapes.glyphs)
        if (one.glyph == glyph) found.push_back(one);
    return found;
}

TEST(StrokeStagger, LeavesWhatDoesNotMeetUnderOneAnother) {
    const auto far = headsAt({0, 4}, &Phrasing::fall);
    EXPECT_EQ(strokeStagger(far, 1, &Phrasing::fall), 0);
    auto onlyUpper = headsAt({0, 1}, &Phrasing::fall);
    onlyUpper.front().phrasing.fall = false;
    EXPECT_EQ(strokeStagger(onlyUpper, 1, &Phrasing::fall), 0);
    EXPECT_EQ(strokeStagger(onlyUpper, 0, &Phrasing::fall), 0);
}

TEST(StrokeStagger, MovesEachOfThoseThatWouldMeetFurtherOutThanTheOneBelow) {
    const auto close = headsAt({0, 1, 3}, &Phrasing::scoop);
    EXPECT_EQ(strokeStagger(close, 0, &Phrasing::scoop), 0);
    EXPECT_GT(strokeStagger(close, 1, &Phrasing::scoop), 0);
    EXPECT_GT(strokeStagger(close, 2, &Phrasing::scoop), strokeStagger(close, 1, &Phrasing::scoop));
}

TEST(StrokeStagger, KeepsFallsAndScoopsOfSecondsAndThirdsSideBySide) {
    NEEDS_MUSIC_FONT;
    constexpr double apart = 0.4;
    for (const int interval : {1, 2}) {
        const auto falls = signs(shapeOf(headsAt({0, interval}, &Phrasing::fall)), Smufl::BrassFallLipShort);
        ASSERT_EQ(falls.size(), 2u);
        EXPECT_GT(falls[1].at.x, falls[0].at.x + apart);
        const auto scoops = signs(shapeOf(headsAt({0, interval}, &Phrasing::scoop)), Smufl::BrassScoop);
        ASSERT_EQ(scoops.size(), 2u);
        EXPECT_LT(scoops[1].at.x, scoops[0].at.x - apart);
    }
}

TEST(StrokeStagger, IsPartOfTheRoomThePieceTakes) {
    NEEDS_MUSIC_FONT;
    for (bool Phrasing::*mark : {&Phrasing::fall, &Phrasing::scoop}) {
        const PieceShape shape = shapeOf(headsAt({0, 1}, mark));
        const PageBox box = extentOf(shape.shapes, musicFont());
        EXPECT_GE(shape.left, -box.left - 1e-9);
        EXPECT_GE(shape.right, box.right - 1e-9);
    }
}

TEST(Scoops, EndShortOfTheLedgerLinesOfTheirHeads) {
    NEEDS_MUSIC_FONT;
    for (const int position : {-7, -6, 6, 7, 8, 9}) {
        const PieceShape shape = shapeOf(headsAt({position}, &Phrasing::scoop));
        const auto scoops = signs(shape, Smufl::BrassScoop);
        ASSERT_EQ(scoops.size(), 1u);
        ASSERT_FALSE(shape.shapes.lines.empty());
        for (const PlacedLine& line : shape.shapes.lines)
            EXPECT_LT(boxOf(scoops.front(), musicFont()).right, line.from.x) << position;
    }
}

} // namespace
} // namespace earwright
