// A blues chorus written after the handbooks' form, its signs counted by hand from the notes in
// SampleLines.h.
#include "MusicFont.h"
#include "SampleLines.h"
#include "core/engraving/Engraving.h"
#include "core/engraving/StaffBar.h"

#include <algorithm>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <numeric>

namespace earwright {
namespace {

using testing::ElementsAre;

class Blues : public testing::Test {
protected:
    void SetUp() override {
        NEEDS_MUSIC_FONT;
        auto laid = engraveSystems(study, wholeStudy(study), {}, musicFont());
        ASSERT_TRUE(laid);
        systems = std::move(*laid);
    }
    int glyphs(std::initializer_list<Smufl> wanted) const {
        int count = 0;
        for (const EngravedSystem& system : systems)
            for (const PlacedGlyph& glyph : system.shapes.glyphs)
                count += std::find(wanted.begin(), wanted.end(), glyph.glyph) != wanted.end();
        return count;
    }
    Study study = bluesChorus();
    std::vector<EngravedSystem> systems;
};

std::vector<StaffBar> staffOf(const Study& study) {
    const auto line = pageLine(study);
    return staffBars(study, line, *pageBars(line, study.meters(), 12), Reading::Concert, Clef::Treble);
}

// Chord tones as their chord spells them, chromatic notes sharp where they rise and flat where they fall
// (common practice): bar 1 has B flat, C sharp (to D) and A flat; bar 4 E flat alone, for its B goes up to C;
// bar 10 E flat, G flat, A flat and in the quintuplet G natural, G flat, E natural, E flat; bar 12 G sharp
// (to A) and B flat; the tied E flat of bar 9 has none.
TEST(BluesBars, HaveTheAccidentalsCountedByHand) {
    std::vector<int> counts;
    for (const StaffBar& bar : staffOf(bluesChorus())) {
        counts.push_back(0);
        for (const StaffPiece& piece : bar.pieces)
            for (const StaffHead& head : piece.heads)
                counts.back() += head.accidental && !head.isCautionary;
    }
    EXPECT_THAT(counts, ElementsAre(3, 2, 3, 1, 4, 2, 2, 2, 1, 7, 1, 2));
}

// Reminders: the C of bar 2 behind the C sharp of bar 1, the B of bars 4 and 8 behind the B flats of bars 3
// and 7, the E of bar 6 behind the E flat of bar 5.
TEST(BluesBars, HaveTheRemindersCountedByHand) {
    std::vector<std::pair<std::int64_t, int>> reminders;
    for (const StaffBar& bar : staffOf(bluesChorus()))
        for (const StaffPiece& piece : bar.pieces)
            for (const StaffHead& head : piece.heads)
                if (head.isCautionary) reminders.emplace_back(bar.number, head.midi);
    EXPECT_THAT(reminders,
                ElementsAre(std::pair(2, 72), std::pair(4, 71), std::pair(6, 76), std::pair(8, 71)));
}

// Four eighths fill the first halves of bars 1, 4, 6, 8 and 12 and the second one of bar 8.
TEST(BluesBars, HaveTheBeamsCountedByHand) {
    std::vector<int> counts;
    for (const StaffBar& bar : staffOf(bluesChorus())) {
        counts.push_back(0);
        for (const StaffPiece& piece : bar.pieces)
            counts.back() += !piece.beams.empty() && piece.beams.front() == "begin";
    }
    EXPECT_THAT(counts, ElementsAre(2, 1, 1, 2, 1, 1, 2, 2, 1, 2, 0, 1));
}

TEST_F(Blues, IsThreeLinesOfFourBars) {
    ASSERT_EQ(systems.size(), 3u);
    for (const EngravedSystem& system : systems)
        EXPECT_EQ(system.bars.size(), 4u);
    EXPECT_EQ(systems[1].bars.front().number, 5);
}

TEST_F(Blues, ShowsEveryAccidentalOnce) {
    EXPECT_EQ(glyphs({Smufl::AccidentalFlat, Smufl::AccidentalNatural, Smufl::AccidentalSharp}),
              3 + 2 + 3 + 1 + 4 + 2 + 2 + 2 + 1 + 7 + 1 + 2 + 4);
    EXPECT_EQ(glyphs({Smufl::AccidentalParensLeft}), 4) << "the reminders";
}

// 16 beams over the notes of a beat, or of half a bar of eighths; under them one more for the sixteenths of
// bars 3, 5 and 10, a hook in bar 4, and two more for the thirty-seconds of bar 10.
TEST_F(Blues, DrawsSecondaryBeamsAndHooks) {
    std::size_t beams = 0;
    for (const EngravedSystem& system : systems)
        beams += system.shapes.beams.size();
    EXPECT_EQ(beams, 16u + 3u + 1u + 2u);
}

// Flags: the note before the dotted quarter of bar 2, the A flat of bar 3, the F of the triplet of bar 9, the
// D of bar 11.
TEST_F(Blues, HasFlagsTupletsAndRestsWhereTheyBelong) {
    EXPECT_EQ(glyphs({Smufl::Flag8thUp, Smufl::Flag8thDown}), 4);
    EXPECT_EQ(glyphs({digitOf(Smufl::Tuplet0, 3)}), 2);
    EXPECT_EQ(glyphs({digitOf(Smufl::Tuplet0, 5)}), 1);
    EXPECT_EQ(glyphs({digitOf(Smufl::Tuplet0, 6)}), 1);
    EXPECT_EQ(glyphs({Smufl::Rest8th}), 1);
    EXPECT_EQ(glyphs({Smufl::RestQuarter}), 1);
    EXPECT_EQ(glyphs({Smufl::AugmentationDot}), 3);
}

// Bar 1 two, bar 12 one; the one from bar 8 to bar 9 breaks with the line and is two curves.
TEST_F(Blues, TiesOverBeatsBarsAndLines) {
    std::size_t curves = 0;
    for (const EngravedSystem& system : systems)
        curves += system.shapes.curves.size();
    EXPECT_EQ(curves, 5u);
}

TEST_F(Blues, ReachesFromMarginToMarginInEveryLine) {
    for (const EngravedSystem& system : systems)
        EXPECT_NEAR(system.bars.back().right, 120 - 2 * 8, 1e-6);
}

TEST_F(Blues, HasABoxForEachHeadAndMomentsThatRise) {
    // 76 notes, and a second head for each of the four tied ones.
    std::size_t boxes = 0;
    for (const EngravedSystem& system : systems) {
        boxes += system.notes.size();
        for (std::size_t i = 1; i < system.moments.size(); ++i) {
            EXPECT_LT(system.moments[i - 1].at, system.moments[i].at);
            EXPECT_LT(system.moments[i - 1].x, system.moments[i].x);
        }
    }
    EXPECT_EQ(boxes, study.notes.size() + 4);
}

} // namespace
} // namespace earwright
