#include "core/engraving/AccidentalLayout.h"

#include "MusicFont.h"

#include <algorithm>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

StaffHead headWith(int alter, bool isCautionary, int position = 0) {
    StaffHead head;
    head.position = position;
    head.accidental = alter;
    head.isCautionary = isCautionary;
    return head;
}

std::vector<Smufl> glyphsOf(const StaffHead& head) {
    std::vector<Smufl> glyphs;
    for (const PlacedGlyph& glyph : accidentalShapes(head, musicFont()).glyphs)
        glyphs.push_back(glyph.glyph);
    return glyphs;
}

TEST(AccidentalShapes, HaveParenthesesWhereTheyOnlyRemind) {
    NEEDS_MUSIC_FONT;
    EXPECT_THAT(glyphsOf(headWith(-1, false)), ElementsAre(Smufl::AccidentalFlat));
    EXPECT_THAT(
        glyphsOf(headWith(0, true)),
        ElementsAre(Smufl::AccidentalParensLeft, Smufl::AccidentalNatural, Smufl::AccidentalParensRight));
    EXPECT_THAT(glyphsOf(StaffHead{}), IsEmpty());
    StaffHead ghosted = headWith(0, true);
    ghosted.phrasing.ghosted = true;
    EXPECT_THAT(glyphsOf(ghosted), ElementsAre(Smufl::AccidentalNatural)) << "the head has its own";
}

TEST(AccidentalShapes, DoNotRunIntoEachOther) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    for (int alter = -2; alter <= 2; ++alter) {
        const auto glyphs = accidentalShapes(headWith(alter, true), font).glyphs;
        ASSERT_EQ(glyphs.size(), 3u);
        for (std::size_t i = 1; i < glyphs.size(); ++i)
            EXPECT_GT(glyphs[i].at.x + font.box(glyphs[i].glyph).left,
                      glyphs[i - 1].at.x + font.box(glyphs[i - 1].glyph).right)
                << alter;
    }
}

// Two reminders of a double stop a third apart stand side by side, left of the heads.
TEST(AccidentalShapes, OfADoubleStopStayClearOfEachOther) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    const std::vector<StaffHead> heads{headWith(0, true, 0), headWith(0, true, 2)};
    const auto edges = accidentalEdges(heads, 0, 1, font);
    const auto lastOf = [&](std::size_t i) {
        const PlacedGlyph last = accidentalShapes(heads[i], font).glyphs.back();
        return edges[i] + last.at.x + font.box(last.glyph).right;
    };
    EXPECT_LT(lastOf(1), 0);
    EXPECT_LT(lastOf(0), edges[1]);
}

} // namespace
} // namespace earwright
