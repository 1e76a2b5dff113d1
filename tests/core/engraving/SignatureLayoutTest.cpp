#include "core/engraving/SignatureLayout.h"

#include "MusicFont.h"
#include "SampleLines.h"
#include "core/engraving/Engraving.h"
#include "core/engraving/StaffBar.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace earwright {
namespace {

std::vector<double> heights(const SignatureShapes& shapes) {
    std::vector<double> ys;
    for (const PlacedGlyph& glyph : shapes.shapes.glyphs)
        ys.push_back(glyph.at.y);
    return ys;
}

// The places of print (common practice): sharps on F5 C5 G5, flats on B4 E5 A4; the top line F5 is y = 0.
TEST(KeySignatures, StandWhereEveryoneLooksForThem) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    EXPECT_THAT(heights(keyShapes({3, Mode::Major}, {}, Clef::Treble, font)),
                testing::ElementsAre(0, 1.5, -0.5));
    EXPECT_THAT(heights(keyShapes({-3, Mode::Minor}, {}, Clef::Treble, font)),
                testing::ElementsAre(2, 0.5, 2.5));
    EXPECT_THAT(heights(keyShapes({-1, Mode::Major}, {}, Clef::Bass, font)), testing::ElementsAre(3));
    EXPECT_TRUE(heights(keyShapes({}, {}, Clef::Treble, font)).empty());
}

TEST(KeySignatures, AreCancelledByNaturalsWhereNothingFollows) {
    NEEDS_MUSIC_FONT;
    const SignatureShapes shapes = keyShapes({}, {-2, Mode::Major}, Clef::Treble, musicFont());
    ASSERT_EQ(shapes.shapes.glyphs.size(), 2u);
    EXPECT_EQ(shapes.shapes.glyphs.front().glyph, Smufl::AccidentalNatural);
}

// B flat major for concert is C major for a trumpet and G major for an alto (common practice).
TEST(KeySignatures, FollowTheReading) {
    EXPECT_EQ(readAs(Reading::BFlat, KeySignature{-2, Mode::Major}).fifths, 0);
    EXPECT_EQ(readAs(Reading::EFlat, KeySignature{-2, Mode::Major}).fifths, 1);
    EXPECT_EQ(readAs(Reading::EFlat, KeySignature{6, Mode::Major}).fifths, -3);
    EXPECT_EQ(readAs(Reading::GuitarOctave, KeySignature{4, Mode::Major}).fifths, 4);
}

Study withChanges() {
    Study study = bluesChorus();
    study.page.keys = {{1, {-2, Mode::Major}}, {7, {2, Mode::Major}}};
    study.page.meters = {{6, {3, 4}}, {7, {6, 8}}, {9, {4, 4}}};
    return study;
}

TEST(Signatures, AreShownWhereTheyChangeAndTheKeyOnEveryLine) {
    NEEDS_MUSIC_FONT;
    const Study study = withChanges();
    const auto systems = engraveSystems(study, wholeStudy(study), {}, musicFont());
    ASSERT_TRUE(systems);
    int fours = 0;
    int threes = 0;
    for (const EngravedSystem& system : *systems)
        for (const PlacedGlyph& glyph : system.shapes.glyphs) {
            fours += glyph.glyph == digitOf(Smufl::TimeSig0, 4);
            threes += glyph.glyph == digitOf(Smufl::TimeSig0, 3);
        }
    // 4/4, 3/4, and 4/4 again on the third line, announced at the end of the second.
    EXPECT_EQ(fours, 2 + 1 + 2 + 2);
    EXPECT_EQ(threes, 1);
}

// A change at the beginning of a line is announced behind the last bar line of the one before (common
// practice), and nothing is where nothing changes.
TEST(Signatures, AreAnnouncedAtTheEndOfTheLineBefore) {
    NEEDS_MUSIC_FONT;
    Study study = bluesChorus();
    study.page.keys = {{1, {-2, Mode::Major}}, {5, {3, Mode::Major}}};
    const auto systems = engraveSystems(study, wholeStudy(study), {}, musicFont());
    ASSERT_TRUE(systems);
    const auto behindLastBar = [&](const EngravedSystem& system) {
        return std::count_if(
            system.shapes.glyphs.begin(), system.shapes.glyphs.end(), [&](const auto& glyph) {
                return glyph.at.x > system.bars.back().right && glyph.glyph == Smufl::AccidentalSharp;
            });
    };
    EXPECT_EQ(behindLastBar(systems->at(0)), 3);
    EXPECT_EQ(behindLastBar(systems->at(1)), 0);
    EXPECT_LT(systems->at(0).bars.back().right, 120 - 2 * 8 - 3);
    EXPECT_NEAR(systems->at(0).extent.right, 120 - 2 * 8, 0.2);
}

TEST(Signatures, LeaveOutAccidentalsThatTheKeyHas) {
    Study study;
    study.page.keys = {{1, {-2, Mode::Major}}};
    study.notes = {noteAt(study, Beats(0), Beats(1), 70), noteAt(study, Beats(1), Beats(1), 71),
                   noteAt(study, Beats(2), Beats(1), 70), noteAt(study, Beats(3), Beats(1), 75)};
    study.notes[1].pitch.spelling = PitchName{Step::B, 0};
    const auto line = pageLine(study);
    const auto bars =
        staffBars(study, line, *pageBars(line, study.meters(), 1), Reading::Concert, Clef::Treble);
    std::vector<std::optional<int>> shown;
    for (const StaffPiece& piece : bars.front().pieces)
        shown.push_back(piece.heads.front().accidental);
    EXPECT_EQ(shown, (std::vector<std::optional<int>>{{}, 0, -1, {}}));
}

} // namespace
} // namespace earwright
