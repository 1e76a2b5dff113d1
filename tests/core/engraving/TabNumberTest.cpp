// The numbers on the strings, and what tells that they are ghosted.
#include "core/engraving/TabNumber.h"

#include "MarkedNote.h"
#include "core/engraving/Extent.h"

#include <cstdint>
#include <gtest/gtest.h>
#include <map>
#include <utility>
#include <vector>

namespace earwright {
namespace {

constexpr int strings = 6;

struct Numbers {
    LaidPiece laid;
    std::map<NoteId, TabPlace> places;

    explicit Numbers(const std::vector<TabPlace>& wanted) {
        for (const TabPlace& place : wanted) {
            StaffHead head;
            head.note = {laid.piece.heads.size() + 1};
            head.phrasing.ghosted = true;
            places[head.note] = place;
            laid.piece.heads.push_back(head);
        }
    }
    PlacedShapes parentheses() const { return tabParentheses(laid, places, strings); }
    double half(std::size_t head) const { return halfOfNumber(laid, laid.piece.heads[head], places); }
};

bool meet(const PlacedCurve& one, const PageBox& other) {
    for (const PageBox& part : boxesAlong(one))
        if (part.overlaps(other)) return true;
    return false;
}

TEST(TabParentheses, StandAroundANumberWithinTheRoomItReserves) {
    for (const int fret : {3, 12}) {
        const Numbers numbers({{2, fret}});
        const PlacedShapes shapes = numbers.parentheses();
        ASSERT_EQ(shapes.curves.size(), 2u);
        EXPECT_NEAR(boxOf(shapes.curves[0]).left, -numbers.half(0), 0.1);
        EXPECT_NEAR(boxOf(shapes.curves[1]).right, numbers.half(0), 0.1);
        EXPECT_LT(boxOf(shapes.curves[0]).right, 0);
        EXPECT_NEAR((boxOf(shapes.curves[0]).top + boxOf(shapes.curves[0]).bottom) / 2, 3, 0.01);
    }
}

// Strings are so close that two pairs would touch.
TEST(TabParentheses, AreOnePairAroundNumbersOnNeighbouringStrings) {
    const Numbers numbers({{1, 9}, {0, 10}});
    const PlacedShapes shapes = numbers.parentheses();
    ASSERT_EQ(shapes.curves.size(), 2u);
    for (const PlacedCurve& curve : shapes.curves) {
        EXPECT_LT(boxOf(curve).top, -0.5) << "over the upper number";
        EXPECT_GT(boxOf(curve).bottom, 1.5 + 0.5) << "under the lower";
    }
    EXPECT_EQ(numbers.half(0), numbers.half(1)) << "beside the wider one";
}

TEST(TabParentheses, OfNumbersThatAreFurtherApartAreTheirOwn) {
    const PlacedShapes shapes = Numbers({{2, 9}, {0, 10}}).parentheses();
    ASSERT_EQ(shapes.curves.size(), 4u);
    for (std::size_t i = 0; i < 4; ++i)
        for (std::size_t other = 0; other < i; ++other)
            EXPECT_FALSE(shapes.curves[i].points == shapes.curves[other].points ||
                         boxOf(shapes.curves[i]).overlaps(boxOf(shapes.curves[other])));
}

TEST(TabParentheses, LeaveOutNumbersThatAreStruckFully) {
    Numbers numbers({{1, 9}, {0, 10}});
    numbers.laid.piece.heads[0].phrasing.ghosted = false;
    ASSERT_EQ(numbers.parentheses().curves.size(), 2u);
    EXPECT_LT(numbers.half(0), numbers.half(1) / 2);
}

// The number on the next string is as wide as those in parentheses.
TEST_F(MarkedNote, InParenthesesMeetsNoNumberOnTheNextString) {
    Study study = studyInFour();
    study.notes = {noteAt(study, Beats(0), Beats(1), 69), noteAt(study, Beats(0), Beats(1), 74)};
    EngravingOptions options;
    options.strings = strings;
    options.places = {{study.notes[0].id, {1, 10}}, {study.notes[1].id, {0, 10}}};
    for (const auto& [lower, upper] : {std::pair{true, false}, {false, true}, {true, true}}) {
        study.notes[0].phrasing.ghosted = lower;
        study.notes[1].phrasing.ghosted = upper;
        const auto systems = engraveSystems(study, wholeStudy(study), options, musicFont());
        ASSERT_TRUE(systems);
        const std::vector<PlacedText> frets = all(systems->front(), "10");
        ASSERT_EQ(frets.size(), 2u);
        // Two heads a fourth apart have a pair each, which are glyphs.
        ASSERT_EQ(systems->front().shapes.curves.size(), 2u);
        for (const PlacedCurve& curve : systems->front().shapes.curves)
            for (const PlacedText& fret : frets)
                EXPECT_FALSE(meet(curve, boxOf(fret))) << lower << upper;
    }
}

} // namespace
} // namespace earwright
