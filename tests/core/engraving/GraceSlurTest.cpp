// The slur from grace notes to their note keeps clear of what stands before it.
#include "MarkedNote.h"
#include "core/engraving/Extent.h"

#include <algorithm>
#include <gtest/gtest.h>

namespace earwright {
namespace {

// The slur of grace notes passes under the accidentals between its ends, those of its own note included.
TEST_F(MarkedNote, HasTheSlurOfItsGraceNotesClearOfAccidentals) {
    for (const std::vector<int>& graces : {std::vector{64}, std::vector{61, 63}, std::vector{60, 61, 63}}) {
        Study study = studyInFour();
        study.notes = {noteAt(study, Beats(0), Beats(2), 65), noteAt(study, Beats(2), Beats(2), 66)};
        study.notes[1].phrasing.graceNotes = graces;
        const auto systems = engraveSystems(study, wholeStudy(study), {}, musicFont());
        ASSERT_TRUE(systems);
        const PlacedShapes& shapes = systems->front().shapes;
        ASSERT_EQ(shapes.curves.size(), 1u);
        const std::vector<PageBox> slur = boxesAlong(shapes.curves.front());
        int accidentals = 0;
        for (const PlacedGlyph& glyph : shapes.glyphs) {
            const bool isAccidental = glyph.glyph == Smufl::AccidentalSharp ||
                                      glyph.glyph == Smufl::AccidentalFlat ||
                                      glyph.glyph == Smufl::AccidentalNatural;
            if (!isAccidental) continue;
            ++accidentals;
            for (const PageBox& part : slur)
                EXPECT_FALSE(part.overlaps(boxOf(glyph, musicFont()))) << graces.size();
        }
        EXPECT_GE(accidentals, 1);
    }
}

// Common practice: the slur of grace notes ends at the head, and where the stem goes down, before it.
TEST_F(MarkedNote, HasTheSlurOfItsGraceNotesOffItsStem) {
    for (const std::vector<int>& graces : {std::vector{74}, std::vector{71, 72}, std::vector{77, 76}}) {
        Study study = studyInFour();
        study.notes = {noteAt(study, Beats(0), Beats(2), 74), noteAt(study, Beats(2), Beats(2), 74)};
        study.notes[1].phrasing.graceNotes = graces;
        const auto systems = engraveSystems(study, wholeStudy(study), {}, musicFont());
        ASSERT_TRUE(systems);
        const PlacedShapes& shapes = systems->front().shapes;
        ASSERT_EQ(shapes.curves.size(), 1u);
        // Those of the grace notes stand before it.
        PlacedLine stem;
        for (const PlacedLine& line : shapes.lines)
            if (line.note == study.notes[1].id && line.from.x == line.to.x && line.from.x > stem.from.x)
                stem = line;
        ASSERT_TRUE(stem.note);
        for (const PageBox& part : boxesAlong(shapes.curves.front()))
            EXPECT_FALSE(part.overlaps(boxOf(stem))) << graces.front();
    }
}

// An accidental, a parenthesis or a slide stands between a stem that goes down and the grace notes: their
// slur ends before it.
TEST_F(MarkedNote, HasTheSlurOfItsGraceNotesOffWhatStandsBeforeItsHead) {
    struct Goal {
        std::vector<int> heads;
        bool isGhosted;
        std::optional<SlideFrom> slideIn = {};
    };
    for (const Goal& goal : {Goal{{75}, false}, Goal{{74}, true}, Goal{{75}, true}, Goal{{74, 77}, true},
                             Goal{{74}, false, SlideFrom::Below}, Goal{{75}, false, SlideFrom::Below},
                             Goal{{74}, false, SlideFrom::Above}})
        for (const std::vector<int>& graces : {std::vector{74}, std::vector{72, 74}, std::vector{71, 69}}) {
            Study study = studyInFour();
            for (const int midi : goal.heads)
                study.notes.push_back(noteAt(study, Beats(0), Beats(2), midi));
            for (Note& note : study.notes)
                note.phrasing.ghosted = goal.isGhosted;
            study.notes[0].phrasing.graceNotes = graces;
            study.notes[0].phrasing.slideIn = goal.slideIn;
            const auto systems = engraveSystems(study, wholeStudy(study), {}, musicFont());
            ASSERT_TRUE(systems);
            const PlacedShapes& shapes = systems->front().shapes;
            ASSERT_EQ(shapes.curves.size(), goal.heads.size() > 1 ? 3u : 1u);
            const PlacedCurve& slur = *std::min_element(shapes.curves.begin(), shapes.curves.end(),
                                                        [](const PlacedCurve& a, const PlacedCurve& b) {
                                                            return a.points.front().x < b.points.front().x;
                                                        });
            std::vector<PageBox> others;
            for (const PlacedGlyph& glyph : shapes.glyphs)
                if (glyph.note && glyph.scale == 1) others.push_back(boxOf(glyph, musicFont()));
            for (const PlacedCurve& curve : shapes.curves)
                for (const PageBox& part : boxesAlong(curve))
                    if (&curve != &slur) others.push_back(part);
            for (const PlacedLine& line : shapes.lines)
                if (line.note && (line.from.y < line.to.y || line.from.x != line.to.x))
                    for (const PageBox& part : boxesAlong(line))
                        others.push_back(part);
            EXPECT_GE(others.size(), 3u) << "head, stem and sign";
            for (const PageBox& part : boxesAlong(slur))
                for (const PageBox& other : others)
                    EXPECT_FALSE(part.overlaps(other))
                        << goal.heads.front() << (goal.isGhosted ? " ghosted after " : " after ")
                        << graces.front() << ": " << other.left << ", " << other.top;
        }
}

// A slide into the note stands between it and its grace notes, under which their slur goes.
TEST_F(MarkedNote, HasTheSlurOfItsGraceNotesClearOfItsSlide) {
    for (const std::vector<int>& graces : {std::vector{64, 65}, std::vector{69, 71}, std::vector{67, 69}})
        for (const SlideFrom from : {SlideFrom::Below, SlideFrom::Above}) {
            Phrasing phrasing;
            phrasing.graceNotes = graces;
            phrasing.slideIn = from;
            const EngravedSystem system = laid(phrasing);
            ASSERT_EQ(system.shapes.curves.size(), 1u);
            int slides = 0;
            for (const PlacedLine& line : system.shapes.lines) {
                if (line.note != marked || line.from.y == line.to.y || line.from.x == line.to.x) continue;
                ++slides;
                for (const PageBox& part : boxesAlong(line))
                    for (const PageBox& slur : boxesAlong(system.shapes.curves.front()))
                        EXPECT_FALSE(part.overlaps(slur)) << graces.front();
            }
            EXPECT_EQ(slides, 1);
        }
}

// It goes up with a leap instead of hanging under the lowest grace note by the height of a third or more,
// which would be a loop.
TEST_F(MarkedNote, HasTheSlurOfItsGraceNotesFlatUnderALeap) {
    for (const std::vector<int>& graces : {std::vector{64}, std::vector{64, 66}, std::vector{67, 69}}) {
        Study study = studyInFour();
        study.notes = {noteAt(study, Beats(0), Beats(2), 74), noteAt(study, Beats(2), Beats(2), 84)};
        study.notes[1].phrasing.graceNotes = graces;
        const EngravedSystem system = engraveSystems(study, wholeStudy(study), {}, musicFont())->front();
        ASSERT_EQ(system.shapes.curves.size(), 1u);
        const PlacedCurve& slur = system.shapes.curves.front();
        for (const PageBox& part : boxesAlong(slur))
            EXPECT_LT(part.bottom, slur.points.front().y + 1.5) << graces.size();
        EXPECT_LT(slur.points.back().y, slur.points.front().y - 2) << "up to its note";
    }
}

// After a leap it would rise steeply through the flag of its own grace note, or the head of the second one:
// it ends further down the stem instead.
TEST_F(MarkedNote, HasTheSlurOfItsGraceNotesClearOfTheirFlagAndHeads) {
    const FontMetrics font = musicFont();
    for (const int main : {74, 76, 77, 81, 84})
        for (const std::vector<int>& under : {std::vector{3}, std::vector{7}, std::vector{9}, std::vector{12},
                                              std::vector{9, 5}, std::vector{12, 9}}) {
            Study study = studyInFour();
            study.notes = {noteAt(study, Beats(0), Beats(2), 74), noteAt(study, Beats(2), Beats(2), main)};
            for (const int semitones : under)
                study.notes[1].phrasing.graceNotes.push_back(main - semitones);
            const auto systems = engraveSystems(study, wholeStudy(study), {}, font);
            ASSERT_TRUE(systems);
            const PlacedShapes& shapes = systems->front().shapes;
            ASSERT_EQ(shapes.curves.size(), 1u);
            std::size_t graceGlyphs = 0;
            for (const PlacedGlyph& glyph : shapes.glyphs) {
                if (glyph.scale >= 1 || glyph.note != study.notes[1].id) continue;
                ++graceGlyphs;
                for (const PageBox& part : boxesAlong(shapes.curves.front()))
                    EXPECT_FALSE(part.overlaps(boxOf(glyph, font)))
                        << under.front() << " and " << under.size() - 1 << " more under " << main << ": "
                        << smuflName(glyph.glyph);
            }
            EXPECT_GE(graceGlyphs, std::max<std::size_t>(under.size(), 2));
        }
}

// In tablature the slur from the note before leads to the grace note, and that one's own arc goes on from
// there.
TEST_F(MarkedNote, IsSlurredByWayOfItsGraceNoteInTablature) {
    Phrasing phrasing;
    phrasing.slurred = true;
    phrasing.graceNotes = {66};
    const EngravedSystem system = laid(phrasing, 6);
    std::vector<PlacedCurve> arcs;
    for (const PlacedCurve& curve : system.shapes.curves)
        if (curve.points.front().y > 5) arcs.push_back(curve);
    ASSERT_EQ(arcs.size(), 2u);
    const PlacedCurve& own = arcs[0].points.back().x > arcs[1].points.back().x ? arcs[0] : arcs[1];
    const PlacedCurve& before = &own == &arcs[0] ? arcs[1] : arcs[0];
    EXPECT_LE(before.points.back().x, own.points.front().x);
    EXPECT_GT(before.points.back().x, before.points.front().x + 0.5);
}

} // namespace
} // namespace earwright
