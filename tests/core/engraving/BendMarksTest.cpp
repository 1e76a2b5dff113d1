// A bent note on the staff and on its string.
#include "MarkedNote.h"
#include "core/engraving/Extent.h"
#include "core/engraving/TabBend.h"

#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

// Quarter tones as players of tablature say them (common practice): a whole tone is "full".
TEST(BendAmounts, AreSaidInWholeTones) {
    EXPECT_EQ(bendAmount({1, BendShape::Up}), "¼");
    EXPECT_EQ(bendAmount({2, BendShape::Up}), "½");
    EXPECT_EQ(bendAmount({3, BendShape::Up}), "¾");
    EXPECT_EQ(bendAmount({4, BendShape::Up}), "full");
    EXPECT_EQ(bendAmount({6, BendShape::Up}), "1½");
    EXPECT_EQ(bendAmount({8, BendShape::Up}), "2");
}

TEST_F(MarkedNote, HasItsBendAsAnArrowOverTheStrings) {
    Phrasing phrasing;
    const std::size_t plainCurves = laid(phrasing, 6).shapes.curves.size();
    // On the staff a curve for each movement of the pitch, on the strings an arrow with a curved shaft for
    // each that is heard; the arrow of a string pulled before is straight.
    const auto curves = [&](BendShape shape) {
        phrasing.bend = Bend{6, shape};
        const EngravedSystem system = laid(phrasing, 6);
        const auto amounts = all(system, "1½");
        EXPECT_EQ(amounts.size(), 1u);
        if (amounts.empty()) return -1;
        const PageBox number = boxOn(system, marked, 1);
        EXPECT_EQ(amounts.front().note, marked);
        EXPECT_GT(amounts.front().at.x, number.right);
        EXPECT_LT(amounts.front().at.x, boxOn(system, next, 1).left);
        // The note lies on the second string: over the first one, which is one and a half spaces higher.
        EXPECT_LT(amounts.front().at.y, (number.top + number.bottom) / 2 - 1.5);
        return static_cast<int>(system.shapes.curves.size() - plainCurves);
    };
    EXPECT_EQ(curves(BendShape::Up), 2);
    EXPECT_EQ(curves(BendShape::UpAndDown), 4);
    EXPECT_EQ(curves(BendShape::PrebentHeld), 0);
    EXPECT_EQ(curves(BendShape::PrebentDown), 2);
}

// Two strings bent together: arrows to one height, and an amount for each or one for both, which none runs
// through (common practice of tablature).
TEST_F(MarkedNote, HasTheBendsOfADoubleStopUnderTheirAmounts) {
    for (const int lower : {4, 2}) {
        Study study = studyInFour();
        study.notes = {noteAt(study, Beats(0), Beats(2), 74), noteAt(study, Beats(0), Beats(2), 78)};
        study.notes[0].phrasing.bend = Bend{lower, BendShape::Up};
        study.notes[1].phrasing.bend = Bend{4, BendShape::Up};
        EngravingOptions options;
        options.strings = 6;
        options.places = {{study.notes[0].id, {1, 15}}, {study.notes[1].id, {0, 14}}};
        const EngravedSystem system = engraveSystems(study, wholeStudy(study), options, musicFont())->front();
        std::vector<PlacedText> amounts = all(system, "full");
        ASSERT_EQ(amounts.size(), 1u);
        for (const PlacedText& half : all(system, "½"))
            amounts.push_back(half);
        ASSERT_EQ(amounts.size(), lower == 4 ? 1u : 2u);
        EXPECT_GE(amounts.back().at.y, amounts.front().at.y) << "the upper string's on top";
        for (const PlacedText& amount : amounts) {
            for (const PlacedCurve& curve : system.shapes.curves)
                for (const PageBox& part : boxesAlong(curve))
                    EXPECT_FALSE(part.overlaps(boxOf(amount)));
            for (const PlacedLine& line : system.shapes.lines)
                for (const PageBox& part : boxesAlong(line))
                    EXPECT_FALSE(line.note && part.overlaps(boxOf(amount)));
        }
    }
}

TEST_F(MarkedNote, SaysItsBendOverAStaffAlone) {
    Phrasing phrasing;
    phrasing.bend = Bend{2, BendShape::PrebentDown};
    const EngravedSystem system = laid(phrasing);
    ASSERT_EQ(all(system, "prebend ½").size(), 1u);
    EXPECT_EQ(all(system, "prebend ½").front().note, marked);
    EXPECT_LT(all(system, "prebend ½").front().at.y, 0);
}

// So that a page shows with the note, when it is chosen, what it does.
TEST_F(MarkedNote, OwnsTheCurvesOfItsBend) {
    for (const BendShape shape : {BendShape::Up, BendShape::UpAndDown, BendShape::PrebentDown}) {
        Phrasing phrasing;
        phrasing.bend = Bend{4, shape};
        const EngravedSystem system = laid(phrasing, 6);
        const std::size_t ways = shape == BendShape::UpAndDown ? 2 : 1;
        ASSERT_EQ(system.shapes.curves.size(), 2 * ways) << "on the staff and on the string";
        for (const PlacedCurve& curve : system.shapes.curves)
            EXPECT_EQ(curve.note, marked);
    }
}

// A string pulled before it is struck, and held: an upright and a level stroke behind the head.
TEST_F(MarkedNote, HasASignOnTheStaffWhereItsBendIsHeld) {
    Phrasing phrasing;
    phrasing.bend = Bend{4, BendShape::PrebentHeld};
    const EngravedSystem system = laid(phrasing, 6);
    std::vector<PlacedLine> strokes;
    for (const PlacedLine& line : system.shapes.lines)
        if (line.note == marked && line.from.x > boxOn(system, marked).right && line.to.y < 4)
            strokes.push_back(line);
    ASSERT_EQ(strokes.size(), 2u);
    EXPECT_EQ(strokes[0].from.x, strokes[0].to.x);
    EXPECT_EQ(strokes[1].from.y, strokes[1].to.y);
    EXPECT_LT(strokes[1].to.x, boxOn(system, next).left);
}

} // namespace
} // namespace earwright
