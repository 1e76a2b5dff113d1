// A slide says where it comes from and where it goes, on staff and string.
#include "MarkedNote.h"

#include <algorithm>
#include <cstdint>
#include <gtest/gtest.h>
#include <optional>
#include <utility>
#include <vector>

namespace earwright {
namespace {

TEST_F(MarkedNote, SlidesToTheNextHeadAndTheNextNumber) {
    Phrasing phrasing;
    phrasing.slidesToNext = true;
    const EngravedSystem system = laid(phrasing, 6);
    std::vector<PlacedLine> strokes;
    for (const PlacedLine& line : system.shapes.lines)
        if (line.note == marked && line.to.x - line.from.x > 1) strokes.push_back(line);
    ASSERT_EQ(strokes.size(), 2u);
    for (std::size_t i = 0; i < 2; ++i) {
        const PageBox from = boxOn(system, marked, i);
        const PageBox to = boxOn(system, next, i);
        EXPECT_GT(strokes[i].from.x, from.right);
        EXPECT_LT(strokes[i].to.x, to.left);
        EXPECT_NEAR(strokes[i].from.y, (from.top + from.bottom) / 2, 0.2);
        EXPECT_NEAR(strokes[i].to.y, (to.top + to.bottom) / 2, 0.2);
        EXPECT_LT(strokes[i].to.y, strokes[i].from.y);
    }
}

TEST_F(MarkedNote, SlidesWithBothNotesOfADoubleStop) {
    Study study = studyInFour();
    study.notes = {noteAt(study, Beats(0), Beats(2), 69), noteAt(study, Beats(0), Beats(2), 72),
                   noteAt(study, Beats(2), Beats(2), 71), noteAt(study, Beats(2), Beats(2), 74)};
    study.notes[0].phrasing.slidesToNext = study.notes[1].phrasing.slidesToNext = true;
    EngravingOptions options;
    options.strings = 6;
    options.places = {{study.notes[0].id, {1, 10}},
                      {study.notes[1].id, {0, 8}},
                      {study.notes[2].id, {1, 12}},
                      {study.notes[3].id, {0, 10}}};
    const auto systems = engraveSystems(study, wholeStudy(study), options, musicFont());
    ASSERT_TRUE(systems);
    for (const Note& note : {study.notes[0], study.notes[1]}) {
        const auto count = std::count_if(
            systems->front().shapes.lines.begin(), systems->front().shapes.lines.end(),
            [&](const PlacedLine& line) { return line.note == note.id && line.to.x - line.from.x > 1; });
        EXPECT_EQ(count, 2) << "on the staff and on its string";
    }
    // Each note speaks for itself.
    for (const std::size_t sliding : {0u, 1u}) {
        study.notes[sliding].phrasing.slidesToNext = true;
        study.notes[1 - sliding].phrasing.slidesToNext = false;
        const auto alone = engraveSystems(study, wholeStudy(study), options, musicFont());
        ASSERT_TRUE(alone);
        for (const std::size_t index : {0u, 1u}) {
            const auto count =
                std::count_if(alone->front().shapes.lines.begin(), alone->front().shapes.lines.end(),
                              [&](const PlacedLine& line) {
                                  return line.note == study.notes[index].id && line.to.x - line.from.x > 1;
                              });
            EXPECT_EQ(count, index == sliding ? 2 : 0) << index << " of " << sliding;
        }
    }
}

/// The strokes of the slide of a whole bar's E4 (64) where each bar has a line of its own, on staff and
/// string; its goal, if there is one, lasts from a beat of the next bar to its end.
std::vector<PlacedLine> strokesOverTheEndOfALine(std::optional<int> goal, std::int64_t beat = 0) {
    Study study = studyInFour();
    study.notes = {noteAt(study, Beats(0), Beats(4), 64)};
    study.notes[0].phrasing.slidesToNext = true;
    EngravingOptions options;
    options.strings = 6;
    options.barsPerLine = 1;
    options.places = {{study.notes[0].id, {1, 5}}};
    if (goal) {
        study.notes.push_back(noteAt(study, Beats(4 + beat), Beats(4 - beat), *goal));
        options.places[study.notes[1].id] = {1, *goal - 59};
    }
    const auto systems = engraveSystems(study, wholeStudy(study), options, musicFont());
    EXPECT_TRUE(systems);
    std::vector<PlacedLine> strokes;
    for (const PlacedLine& line : systems->front().shapes.lines) {
        if (line.note != study.notes[0].id || line.from.x == line.to.x) continue;
        EXPECT_LT(line.to.x, systems->front().bars.back().right + 0.01);
        strokes.push_back(line);
    }
    return strokes;
}

// Over the end of a line a slide shows which way it goes, on the staff and on the string.
TEST_F(MarkedNote, SlidesUpOrDownOverTheEndOfALine) {
    const auto up = strokesOverTheEndOfALine(65);
    ASSERT_EQ(up.size(), 2u);
    for (const PlacedLine& stroke : up)
        EXPECT_LT(stroke.to.y, stroke.from.y);
    const auto down = strokesOverTheEndOfALine(63);
    ASSERT_EQ(down.size(), 2u);
    for (const PlacedLine& stroke : down)
        EXPECT_GT(stroke.to.y, stroke.from.y);
}

// As between two heads: what slides on to the same pitch goes down; what slides to no note, or has a rest
// before it, goes nowhere.
TEST_F(MarkedNote, SlidesOverTheEndOfALineAsItsGoalIsThere) {
    const auto level = strokesOverTheEndOfALine(64);
    ASSERT_EQ(level.size(), 2u);
    for (const PlacedLine& stroke : level)
        EXPECT_GT(stroke.to.y, stroke.from.y);
    EXPECT_TRUE(strokesOverTheEndOfALine(std::nullopt).empty());
    EXPECT_TRUE(strokesOverTheEndOfALine(65, 1).empty());
}

/// The stroke of a slide from a bar's last note (MIDI 72) to the next bar's first, on the staff, and where
/// the bar line between them stands.
std::pair<PlacedLine, double> slideOverABarLine(Study study, int goal) {
    study.notes = {noteAt(study, Beats(0), Beats(4), 72), noteAt(study, Beats(4), Beats(3), goal)};
    study.notes[0].phrasing.slidesToNext = true;
    const auto systems = engraveSystems(study, wholeStudy(study), {}, musicFont());
    EXPECT_TRUE(systems);
    const EngravedSystem& system = systems->front();
    const auto stroke =
        std::find_if(system.shapes.lines.begin(), system.shapes.lines.end(), [&](const PlacedLine& line) {
            return line.note == study.notes[0].id && line.from.x != line.to.x && line.from.y != line.to.y;
        });
    EXPECT_NE(stroke, system.shapes.lines.end());
    return {*stroke, system.bars.front().right};
}

TEST_F(MarkedNote, SlidesThroughABarLine) {
    const auto [stroke, barLine] = slideOverABarLine(studyInFour(), 79);
    EXPECT_LT(stroke.from.x, barLine);
    EXPECT_GT(stroke.to.x, barLine);
}

// A change of meter or the dots of a repeat would be struck through.
TEST_F(MarkedNote, SlidesAsFarAsTheBarLineWhereSignsStandBehindIt) {
    Study meterChanges = studyInFour();
    meterChanges.page.meters = {{2, {3, 4}}};
    Study keyChanges = studyInFour();
    keyChanges.page.keys = {{2, KeySignature{5}}};
    Study repeats = studyInFour();
    repeats.page.repeats = {{1, 1, 2, 0}};
    for (const Study& study : {meterChanges, keyChanges, repeats})
        for (const int goal : {60, 71, 72, 74, 84}) {
            const auto [stroke, barLine] = slideOverABarLine(study, goal);
            EXPECT_LT(stroke.to.x, barLine) << goal;
            EXPECT_GT(stroke.to.x, stroke.from.x + 1) << "it is seen";
            const double rise = stroke.from.y - stroke.to.y;
            EXPECT_GT(goal > 72 ? rise : -rise, 0.4) << goal << ": it shows which way it goes";
        }
}

} // namespace
} // namespace earwright
