// What is said of how a note is played stands at that note. Glyph names and code points are those of
// SMuFL 1.4.
#include "MarkedNote.h"
#include "core/engraving/Extent.h"

#include <algorithm>
#include <gtest/gtest.h>

namespace earwright {
namespace {

// G4 has its stem up, so that articulations stand under it.
TEST_F(MarkedNote, HasItsArticulationsUnderItFromTheHeadOutwards) {
    Phrasing phrasing;
    phrasing.staccato = phrasing.tenuto = phrasing.accented = true;
    const EngravedSystem system = laid(phrasing);
    const PlacedGlyph dot = only(system, 0xE4A3);
    const PlacedGlyph tenuto = only(system, 0xE4A5);
    const PlacedGlyph accent = only(system, 0xE4A1);
    for (const PlacedGlyph& glyph : {dot, tenuto, accent})
        expectCentred(system, glyph);
    EXPECT_LT(boxOn(system, marked).bottom, dot.at.y);
    EXPECT_LT(dot.at.y, tenuto.at.y);
    EXPECT_LT(tenuto.at.y, accent.at.y);
}

TEST_F(MarkedNote, HasTurnsAndMordentsOverIt) {
    const auto expectOver = [&](const Phrasing& phrasing, char32_t codePoint) {
        const EngravedSystem system = laid(phrasing);
        const PlacedGlyph sign = only(system, codePoint);
        expectCentred(system, sign);
        EXPECT_LT(sign.at.y, 0);
    };
    Phrasing phrasing;
    phrasing.turn = Turn::FromAbove;
    expectOver(phrasing, 0xE567);
    phrasing.turn = Turn::FromBelow;
    expectOver(phrasing, 0xE568);
    phrasing.turn = {};
    // SMuFL describes U+E56D as the mordent (with its stroke) and U+E56C as the short trill or upper mordent.
    phrasing.mordent = Mordent::Lower;
    expectOver(phrasing, 0xE56D);
    phrasing.mordent = Mordent::Upper;
    expectOver(phrasing, 0xE56C);
}

TEST_F(MarkedNote, HasItsScoopBeforeAndItsFallBehindTheHead) {
    Phrasing phrasing;
    phrasing.scoop = phrasing.fall = true;
    const EngravedSystem system = laid(phrasing);
    const PageBox head = boxOn(system, marked);
    const FontMetrics font = musicFont();
    const PlacedGlyph scoop = only(system, 0xE5D0);
    const PlacedGlyph fall = only(system, 0xE5D7);
    EXPECT_LT(scoop.at.x + font.box(scoop.glyph).right, head.left);
    EXPECT_GT(fall.at.x, head.right);
    EXPECT_LT(fall.at.x + font.box(fall.glyph).right, boxOn(system, next).left);
}

TEST_F(MarkedNote, HasItsVibratoAsAWaveThatEndsBeforeTheNextNote) {
    Phrasing phrasing;
    phrasing.vibrato = true;
    const EngravedSystem system = laid(phrasing);
    const auto waves = all(system, 0xEAB0);
    ASSERT_GT(waves.size(), 3u);
    EXPECT_NEAR(waves.front().at.x, boxOn(system, marked).left, 0.1);
    EXPECT_LT(waves.back().at.x + musicFont().box(Smufl::WiggleVibrato).right, boxOn(system, next).left);
    for (const PlacedGlyph& wave : waves) {
        EXPECT_EQ(wave.note, marked);
        EXPECT_LT(wave.at.y, 0);
    }
}

TEST_F(MarkedNote, StandsInTablatureAloneUnderItsRhythm) {
    Study study = studyInFour();
    study.page.keys = {{1, {4, Mode::Major}}};
    study.notes = {noteAt(study, Beats(0), Beats(1, 2), 64), noteAt(study, Beats(1, 2), Beats(1, 2), 67),
                   noteAt(study, Beats(1), Beats(1), 71), noteAt(study, Beats(2), Beats(2), 74)};
    study.notes[1].phrasing.graceNotes = {66};
    EngravingOptions options;
    options.staff = false;
    options.strings = 6;
    options.places = {{study.notes[0].id, {1, 5}},
                      {study.notes[1].id, {1, 8}},
                      {study.notes[2].id, {0, 7}},
                      {study.notes[3].id, {0, 10}}};
    const auto systems = engraveSystems(study, wholeStudy(study), options, musicFont());
    ASSERT_TRUE(systems);
    const EngravedSystem& system = systems->front();
    // No clef of a staff, no key, no accidental, no ledger line; code points of SMuFL 1.4.
    for (const char32_t sign : {0xE050, 0xE262, 0xE261})
        EXPECT_TRUE(all(system, sign).empty()) << static_cast<unsigned>(sign);
    EXPECT_EQ(all(system, 0xE06D).size(), 1u) << "the tablature's";
    // Three black heads and a half, all on one height and over the numbers; one beam.
    const auto black = all(system, 0xE0A4);
    const auto half = all(system, 0xE0A3);
    ASSERT_EQ(black.size(), 3u);
    ASSERT_EQ(half.size(), 1u);
    for (const PlacedGlyph& head : black)
        EXPECT_EQ(head.at.y, half.front().at.y);
    EXPECT_EQ(system.shapes.beams.size(), 1u);
    for (const char* fret : {"5", "8", "7", "10"}) {
        const auto number = all(system, std::string(fret));
        ASSERT_GE(number.size(), 1u) << fret;
        EXPECT_GT(number.front().at.y, half.front().at.y + 1) << fret;
    }
    // The meter stands on the tablature: its digits on lines of that.
    const auto four = all(system, 0xE084);
    ASSERT_EQ(four.size(), 2u);
    EXPECT_GT(four.front().at.y, half.front().at.y);
    options.strings = 0;
    EXPECT_FALSE(engraveSystems(study, wholeStudy(study), options, musicFont()));
}

// Nothing is written beyond the end of the staves.
TEST_F(MarkedNote, SaysLetRingAndPrebendBeforeTheLineEnds) {
    Study study = studyInFour();
    for (int i = 0; i < 16; ++i)
        study.notes.push_back(noteAt(study, Beats(i, 4), Beats(1, 4), 64 + i % 5));
    study.notes.back().phrasing.letRing = true;
    study.notes.back().phrasing.bend = Bend{6, BendShape::PrebentHeld};
    for (const int strings : {0, 6}) {
        EngravingOptions options;
        options.strings = strings;
        options.places = anyPlaces(study);
        const EngravedSystem system = engraveSystems(study, wholeStudy(study), options, musicFont())->front();
        const double right = system.bars.back().right;
        ASSERT_EQ(all(system, "let ring").size(), 1u);
        EXPECT_LE(boxOf(all(system, "let ring").front()).right, right) << strings;
        for (const PlacedText& words : all(system, "prebend 1½"))
            EXPECT_LE(boxOf(words).right, right);
        EXPECT_EQ(all(system, "prebend 1½").size(), strings == 0 ? 1u : 0u);
    }
}

TEST_F(MarkedNote, HasTheLetterOfItsSlurOverTheStrings) {
    Phrasing phrasing;
    phrasing.slurred = true;
    EXPECT_TRUE(all(laid(phrasing, 6), "H").empty());
    phrasing.slurBy = SlurBy::PullOff;
    const EngravedSystem pulled = laid(phrasing, 6);
    ASSERT_EQ(all(pulled, "P").size(), 1u);
    EXPECT_LT(all(pulled, "P").front().at.x, boxOn(pulled, marked, 1).left);
    EXPECT_LT(all(pulled, "P").front().at.y, boxOn(pulled, next, 1).top);
    phrasing.slurBy = SlurBy::HammerOn;
    EXPECT_EQ(all(laid(phrasing, 6), "H").size(), 1u);
    EXPECT_TRUE(all(laid(phrasing), "H").empty());
}

// The arrow of a bend goes up through the room where the letter would stand.
TEST_F(MarkedNote, HasTheLetterOfItsSlurClearOfTheBendBefore) {
    for (const BendShape shape : {BendShape::Up, BendShape::UpAndDown, BendShape::PrebentHeld}) {
        Study study = studyInFour();
        study.notes = {noteAt(study, Beats(0), Beats(1, 2), 79), noteAt(study, Beats(1, 2), Beats(1, 2), 76)};
        study.notes[0].phrasing.bend = Bend{2, shape};
        study.notes[1].phrasing.slurred = true;
        study.notes[1].phrasing.slurBy = SlurBy::PullOff;
        EngravingOptions options;
        options.strings = 6;
        options.places = {{study.notes[0].id, {0, 15}}, {study.notes[1].id, {0, 12}}};
        const EngravedSystem system = engraveSystems(study, wholeStudy(study), options, musicFont())->front();
        ASSERT_EQ(all(system, "P").size(), 1u);
        const PageBox letter = boxOf(all(system, "P").front());
        ASSERT_EQ(all(system, "½").size(), 1u);
        const PageBox amount = boxOf(all(system, "½").front());
        EXPECT_GE(letter.left, amount.right) << "beside it, not under it";
        for (const PlacedLine& line : system.shapes.lines)
            for (const PageBox& part : boxesAlong(line))
                EXPECT_FALSE(line.note == study.notes[0].id && part.overlaps(letter));
        for (const PlacedCurve& curve : system.shapes.curves)
            for (const PageBox& part : boxesAlong(curve))
                EXPECT_FALSE(part.overlaps(letter));
    }
}

// Both parentheses of a ghosted note are as far from its head, and an accidental has more room before their
// bow than before a head.
TEST_F(MarkedNote, HasItsParenthesesOnBothSidesAndItsAccidentalClearOfThem) {
    for (const int midi : {65, 68, 70}) {
        Study study = studyInFour();
        study.page.keys = {{1, KeySignature{1, Mode::Major}}};
        study.notes = {noteAt(study, Beats(0), Beats(2), 67), noteAt(study, Beats(2), Beats(2), midi)};
        study.notes[1].phrasing.ghosted = true;
        const FontMetrics font = musicFont();
        const auto systems = engraveSystems(study, wholeStudy(study), {}, font);
        ASSERT_TRUE(systems);
        PageBox left, right, sign, head;
        for (const PlacedGlyph& glyph : systems->front().shapes.glyphs) {
            if (glyph.note != study.notes[1].id) continue;
            PageBox& box = glyph.glyph == Smufl::NoteheadParenthesisLeft    ? left
                           : glyph.glyph == Smufl::NoteheadParenthesisRight ? right
                           : glyph.glyph == Smufl::NoteheadHalf             ? head
                                                                            : sign;
            box = boxOf(glyph, font);
        }
        EXPECT_NEAR(head.left - left.right, right.left - head.right, 1e-9) << midi;
        EXPECT_GT(right.left, head.right);
        ASSERT_GT(sign.width(), 0) << midi;
        EXPECT_GE(left.left - sign.right, 0.3) << midi;
    }
}

// The curve of a bend rises from its head; a tie goes on under it.
TEST_F(MarkedNote, IsTiedUnderItsBend) {
    Study study = studyInFour();
    study.notes = {noteAt(study, Beats(0), Beats(5, 2), 74), noteAt(study, Beats(5, 2), Beats(3, 2), 74)};
    study.notes[0].phrasing.bend = Bend{4, BendShape::Up};
    const auto systems = engraveSystems(study, wholeStudy(study), {}, musicFont());
    ASSERT_TRUE(systems);
    const std::vector<PlacedCurve>& curves = systems->front().shapes.curves;
    ASSERT_EQ(curves.size(), 2u) << "bend and tie";
    for (const PageBox& one : boxesAlong(curves[0]))
        for (const PageBox& other : boxesAlong(curves[1]))
            EXPECT_FALSE(one.overlaps(other));
}

/// Of a bend the ends are as thick as the middle.
bool isBend(const PlacedCurve& curve) {
    return curve.endThickness == curve.midThickness;
}

// In a double stop, too, whichever of its notes is bent.
TEST_F(MarkedNote, OfADoubleStopIsTiedClearOfItsBend) {
    for (const auto& [lower, upper] : {std::pair{72, 76}, {60, 64}, {67, 72}, {71, 72}})
        for (const std::size_t bent : {0u, 1u})
            for (const BendShape shape : {BendShape::Up, BendShape::UpAndDown, BendShape::PrebentDown}) {
                Study study = studyInFour();
                for (const int midi : {lower, upper})
                    study.notes.push_back(noteAt(study, Beats(0), Beats(5, 2), midi));
                study.notes[bent].phrasing.bend = Bend{4, shape};
                const auto systems = engraveSystems(study, wholeStudy(study), {}, musicFont());
                ASSERT_TRUE(systems);
                int ties = 0;
                for (const PlacedCurve& tie : systems->front().shapes.curves) {
                    if (isBend(tie)) continue;
                    ++ties;
                    EXPECT_GT(tie.points.back().x, tie.points.front().x + 0.5);
                    for (const PlacedCurve& bend : systems->front().shapes.curves)
                        for (const PageBox& one : boxesAlong(tie))
                            for (const PageBox& other : boxesAlong(bend))
                                EXPECT_FALSE(isBend(bend) && one.overlaps(other))
                                    << lower << ' ' << upper << ", bend on " << bent;
                }
                EXPECT_EQ(ties, 2);
            }
}

// Two heads a step apart stand on both sides of the stem, and parentheses around them; ties come to the outer
// edges and run through none, bent or not.
TEST_F(MarkedNote, OfASecondIsTiedClearOfHeadsAndParentheses) {
    const FontMetrics font = musicFont();
    for (const auto& [lower, upper] : {std::pair{65, 67}, {64, 65}, {71, 72}, {76, 77}})
        for (const int mark : {0, 1, 2, 3, 4}) {
            Study study = studyInFour();
            for (const int midi : {lower, upper})
                study.notes.push_back(noteAt(study, Beats(0), Beats(5, 2), midi));
            if (mark == 1 || mark == 2)
                study.notes[static_cast<std::size_t>(mark - 1)].phrasing.bend = Bend{4, BendShape::Up};
            if (mark > 2) study.notes[static_cast<std::size_t>(mark - 3)].phrasing.ghosted = true;
            const auto systems = engraveSystems(study, wholeStudy(study), {}, font);
            ASSERT_TRUE(systems);
            int ties = 0;
            for (const PlacedCurve& tie : systems->front().shapes.curves) {
                if (isBend(tie)) continue;
                ++ties;
                EXPECT_GT(tie.points.back().x, tie.points.front().x + 0.8);
                for (const PageBox& part : boxesAlong(tie))
                    for (const PlacedGlyph& glyph : systems->front().shapes.glyphs)
                        EXPECT_FALSE(glyph.note && part.overlaps(boxOf(glyph, font)))
                            << smuflName(glyph.glyph) << ", " << lower << ' ' << upper << ", mark " << mark;
            }
            EXPECT_EQ(ties, 2);
        }
}

TEST_F(MarkedNote, StandsUnderTheSlurWithTheSignOfAStrokeWherePickedAllTheSame) {
    const std::size_t plain = laid({}, 6).shapes.curves.size();
    Phrasing phrasing;
    phrasing.slurred = true;
    EXPECT_EQ(laid(phrasing, 6).shapes.curves.size(), plain + 2) << "on the staff and on the strings";
    EXPECT_TRUE(all(laid(phrasing, 6), 0xE610).empty());
    phrasing = {};
    phrasing.pickedInSlur = true;
    EXPECT_EQ(laid(phrasing, 6).shapes.curves.size(), plain + 2);
    EXPECT_EQ(all(laid(phrasing, 6), 0xE610).size(), 2u);
    // SMuFL 1.4 names the sign stringsDownBow.
    EXPECT_EQ(smuflName(only(laid(phrasing), 0xE610).glyph), "stringsDownBow");
}

TEST_F(MarkedNote, HasItsMarksOverTheStringsAsWell) {
    const auto overStrings = [&](const Phrasing& phrasing, char32_t codePoint) {
        const EngravedSystem system = laid(phrasing, 6);
        const double top = boxOn(system, marked, 0).bottom;
        const auto found = all(system, codePoint);
        const auto under = std::count_if(found.begin(), found.end(), [&](const PlacedGlyph& glyph) {
            return glyph.note == marked && glyph.at.y > top + 3;
        });
        EXPECT_GT(static_cast<std::ptrdiff_t>(found.size()), under) << "and on the staff";
        for (const PlacedGlyph& glyph : found)
            EXPECT_LT(glyph.at.y, boxOn(system, marked, 1).bottom + 0.1);
        return under;
    };
    Phrasing phrasing;
    phrasing.accented = true;
    // Under the head on the staff, over the strings: SMuFL has a sign for either side.
    EXPECT_EQ(all(laid(phrasing, 6), 0xE4A1).size(), 1u);
    EXPECT_EQ(all(laid(phrasing, 6), 0xE4A0).size(), 1u);
    phrasing = {};
    phrasing.vibrato = true;
    EXPECT_GT(overStrings(phrasing, 0xEAB0), 3);
    phrasing = {};
    phrasing.fall = phrasing.scoop = true;
    EXPECT_EQ(overStrings(phrasing, 0xE5D0), 1);
    EXPECT_EQ(overStrings(phrasing, 0xE5D7), 1);
    phrasing = {};
    phrasing.trill = 2;
    EXPECT_EQ(overStrings(phrasing, 0xE566), 1);
    const auto fret = all(laid(phrasing, 6), "(10)");
    ASSERT_EQ(fret.size(), 1u) << "two frets over the eighth";
    EXPECT_EQ(fret.front().note, marked);
}

// A leap that no string holds is slurred for the ear alone: neither an arc nor a letter on the strings.
TEST_F(MarkedNote, HasNoSlurInTheTablatureFromAnotherString) {
    Study study = studyInFour();
    study.notes = {noteAt(study, Beats(0), Beats(2), 64), noteAt(study, Beats(2), Beats(2), 76)};
    study.notes[1].phrasing.slurred = true;
    study.notes[1].phrasing.slurBy = SlurBy::HammerOn;
    EngravingOptions options;
    options.strings = 6;
    const auto laidOn = [&](const TabPlace& second) {
        options.places = {{study.notes[0].id, {1, 5}}, {study.notes[1].id, second}};
        return engraveSystems(study, wholeStudy(study), options, musicFont())->front();
    };
    const EngravedSystem held = laidOn({1, 17});
    EXPECT_EQ(held.shapes.curves.size(), 2u);
    EXPECT_EQ(all(held, "H").size(), 1u);
    const EngravedSystem leaping = laidOn({0, 12});
    ASSERT_EQ(leaping.shapes.curves.size(), 1u);
    EXPECT_LT(leaping.shapes.curves.front().points.front().y, 4) << "on the staff";
    EXPECT_TRUE(all(leaping, "H").empty());
}

// Common practice: a slur that a line breaks goes to the line's end and comes from the next one's beginning.
TEST_F(MarkedNote, KeepsItsSlurInTheTablatureWhereALineBreaksIt) {
    Study study = studyInFour();
    study.notes = {noteAt(study, Beats(0), Beats(4), 64), noteAt(study, Beats(4), Beats(4), 67)};
    EngravingOptions options;
    options.strings = 6;
    options.barsPerLine = 1;
    options.places = {{study.notes[0].id, {1, 5}}, {study.notes[1].id, {1, 8}}};
    const auto curves = [&] {
        const auto systems = engraveSystems(study, wholeStudy(study), options, musicFont());
        EXPECT_EQ(systems->size(), 2u);
        return std::pair(systems->front().shapes.curves.size(), systems->back().shapes.curves.size());
    };
    EXPECT_EQ(curves(), std::pair(std::size_t{0}, std::size_t{0}));
    study.notes[1].phrasing.slurred = true;
    study.notes[1].phrasing.slurBy = SlurBy::HammerOn;
    EXPECT_EQ(curves(), std::pair(std::size_t{2}, std::size_t{2})) << "on the staff and on the strings";
    const auto systems = engraveSystems(study, wholeStudy(study), options, musicFont());
    EXPECT_EQ(all(systems->front(), "H").size(), 0u);
    EXPECT_EQ(all(systems->back(), "H").size(), 1u);
}

} // namespace
} // namespace earwright
