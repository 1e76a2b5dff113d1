#include "core/engraving/HeadOffsets.h"

#include "MusicFont.h"
#include "core/engraving/PieceShape.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

std::vector<StaffHead> headsAt(const std::vector<int>& positions) {
    std::vector<StaffHead> heads;
    for (const int position : positions) {
        StaffHead head;
        head.position = position;
        heads.push_back(head);
    }
    return heads;
}

TEST(HeadOffsets, KeepHeadsThatLieApartOnTheUsualSide) {
    EXPECT_EQ(headOffsets(headsAt({0}), true, 1), std::vector<double>{0});
    EXPECT_EQ(headOffsets(headsAt({0, 2}), true, 1), (std::vector<double>{0, 0}));
}

TEST(HeadOffsets, PutTheFurtherOfASecondOnTheOtherSideOfTheStem) {
    EXPECT_EQ(headOffsets(headsAt({0, 1}), true, 1), (std::vector<double>{0, 1}));
    EXPECT_EQ(headOffsets(headsAt({0, 1}), false, 1), (std::vector<double>{-1, 0}));
}

TEST(HeadOffsets, AlternateInAClusterFromWhereTheStemBegins) {
    EXPECT_EQ(headOffsets(headsAt({0, 1, 2}), true, 1), (std::vector<double>{0, 1, 0}));
    EXPECT_EQ(headOffsets(headsAt({0, 1, 2}), false, 1), (std::vector<double>{0, -1, 0}));
    EXPECT_EQ(headOffsets(headsAt({0, 1, 2, 3}), false, 1), (std::vector<double>{-1, 0, -1, 0}));
}

TEST(HeadOffsets, FindRoomBesideBothSidesForAThirdHeadInOnePlace) {
    EXPECT_EQ(headOffsets(headsAt({0, 1, 1}), true, 1), (std::vector<double>{0, 1, -1}));
    EXPECT_EQ(headOffsets(headsAt({0, 0, 1}), false, 1), (std::vector<double>{1, -1, 0}));
}

TEST(HeadOffsets, LetNoTwoHeadsOfAPieceMeet) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    // Heads on both sides of a stem share its stroke.
    const double touch = font.usual("stemThickness") + 0.01;
    for (const std::vector<int>& positions :
         {std::vector{0, 1, 2}, std::vector{0, 1, 1}, std::vector{0, 0, 1}, std::vector{-1, 0, 1, 2}})
        for (const bool stemUp : {true, false}) {
            StaffPiece piece;
            piece.heads = headsAt(positions);
            piece.stemUp = stemUp;
            const PieceShape shape = pieceShape(piece, font);
            ASSERT_EQ(shape.notes.size(), positions.size());
            for (std::size_t i = 0; i < shape.notes.size(); ++i)
                for (std::size_t j = 0; j < i; ++j) {
                    const PageBox& box = shape.notes[i].box;
                    const PageBox inner{box.left + touch, box.top + touch, box.right - touch,
                                        box.bottom - touch};
                    EXPECT_FALSE(inner.overlaps(shape.notes[j].box)) << i << " meets " << j;
                }
        }
}

} // namespace
} // namespace earwright
