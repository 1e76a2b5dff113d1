#include "ui/grid/GridGeometry.h"

#include "core/music/Pitch.h"
#include "tests/ui/grid/SampleStudy.h"

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

const GridColumns twoBars(emptySample(), {Beats(4), Beats(12)});

/// Cells 480 by 400, so that a beat of the two bars is 60 wide.
constexpr QSizeF view(gridmargins::labels + 480 + gridmargins::right,
                      gridmargins::top + 400 + gridmargins::marks);

} // namespace

TEST(GridGeometry, FillsTheWidthWithTheBars) {
    const GridGeometry geometry(twoBars, view);
    EXPECT_DOUBLE_EQ(geometry.beatWidth(), 60);
    EXPECT_DOUBLE_EQ(geometry.x(Beats(4)), gridmargins::labels);
    EXPECT_DOUBLE_EQ(geometry.x(Beats(12)), gridmargins::labels + 480);
    EXPECT_EQ(geometry.scrollRange().width(), 0);
}

TEST(GridGeometry, TurnsPlacesIntoPixelsAndBack) {
    const GridGeometry geometry(twoBars, view, {0, 100});
    for (double beats = 4; beats < 12; beats += 0.37)
        EXPECT_NEAR(geometry.beatsAt(geometry.x(beats)), beats, 1e-9);
    for (int midi = lowestMidi; midi <= highestMidi; ++midi)
        EXPECT_EQ(geometry.midiAt(geometry.y(midi)), midi);
}

TEST(GridGeometry, HasTheHighestPitchOnTopAndNothingBeyond) {
    const GridGeometry geometry(twoBars, view);
    EXPECT_DOUBLE_EQ(geometry.row(highestMidi).top(), gridmargins::top);
    EXPECT_EQ(geometry.midiAt(gridmargins::top - 1), std::nullopt);
    EXPECT_EQ(geometry.midiAt(geometry.row(lowestMidi).bottom() + 1), std::nullopt);
    EXPECT_DOUBLE_EQ(geometry.y(60) - geometry.y(72), 12 * GridGeometry::rowHeight);
}

TEST(GridGeometry, WidensOneFinelyDividedBeatRatherThanAllOfThem) {
    Study study = emptySample();
    study.divisions[Beats(5)] = BeatDivision::Six;
    const GridColumns columns(study, {Beats(4), Beats(12)});
    const GridGeometry geometry(columns, view);
    // Six columns of 12 take 72 of the 480; the other seven beats share the rest, and nothing scrolls.
    EXPECT_NEAR(geometry.x(Beats(6)) - geometry.x(Beats(5)), 6 * GridGeometry::narrowestColumn, 1e-9);
    EXPECT_NEAR(geometry.x(Beats(5)) - geometry.x(Beats(4)), (480.0 - 72) / 7, 1e-9);
    EXPECT_NEAR(geometry.x(Beats(12)), gridmargins::labels + 480, 1e-9);
    EXPECT_EQ(geometry.scrollRange().width(), 0);
    EXPECT_NEAR(geometry.beatOnRuler(Beats(5)).width(), 72, 1e-9);
    EXPECT_NEAR(geometry.widestBeat(), 72, 1e-9);
    for (double beats = 4; beats < 12; beats += 0.1)
        EXPECT_NEAR(geometry.beatsAt(geometry.x(beats)), beats, 1e-9);
}

TEST(GridGeometry, ScrollsWhenColumnsWouldGetTooNarrow) {
    Study study = emptySample();
    for (std::int64_t beat = 4; beat < 12; ++beat)
        study.divisions[Beats(beat)] = BeatDivision::Six;
    const GridColumns columns(study, {Beats(4), Beats(12)});
    const GridGeometry geometry(columns, view);
    EXPECT_NEAR(geometry.cell(columns[0], 60).width(), GridGeometry::narrowestColumn, 1e-9);
    EXPECT_DOUBLE_EQ(geometry.scrollRange().width(), 8 * 72 - 480);
}

TEST(GridGeometry, StopsScrollingAtTheEdges) {
    const GridGeometry geometry(twoBars, view, {500, 1e6});
    EXPECT_DOUBLE_EQ(geometry.x(Beats(4)), gridmargins::labels);
    EXPECT_DOUBLE_EQ(geometry.row(lowestMidi).bottom(), view.height() - gridmargins::marks);
}

TEST(GridGeometry, TilesTheCellsOfABeat) {
    const GridGeometry geometry(twoBars, view);
    const QRectF first = geometry.cell(twoBars[0], 60);
    const QRectF second = geometry.cell(twoBars[1], 60);
    EXPECT_DOUBLE_EQ(first.right(), second.left());
    EXPECT_DOUBLE_EQ(geometry.cell(twoBars[0], 61).bottom(), first.top());
}

TEST(GridGeometry, PutsAHeadIntoItsOwnColumnAndTheTailUpToItsEnd) {
    const GridGeometry geometry(twoBars, view);
    const Note note = sampleNote(1, Beats(4), Beats(1, 2), 60);
    EXPECT_TRUE(geometry.cell(twoBars[0], 60).contains(geometry.head(note)));
    EXPECT_LT(geometry.tailEnd(note).x(), geometry.x(note.end()));
    EXPECT_GT(geometry.tailEnd(note).x(), geometry.head(note).x());
    EXPECT_TRUE(geometry.tailHandle(note).contains(geometry.tailEnd(note)));
}

TEST(GridGeometry, NeverOffersATailWhereTheHeadIs) {
    Study study = emptySample();
    study.divisions[Beats(4)] = BeatDivision::Six;
    const GridColumns columns(study, {Beats(4), Beats(12)});
    const GridGeometry geometry(columns, view);
    const Note note = sampleNote(1, Beats(4), Beats(1, 6), 60);
    EXPECT_FALSE(geometry.headArea(note).intersects(geometry.tailHandle(note)));
    EXPECT_GT(geometry.tailHandle(note).width(), 0);
}

TEST(GridGeometry, SurvivesAViewWithoutRoom) {
    const GridGeometry geometry(twoBars, QSizeF(10, 10));
    EXPECT_TRUE(geometry.cells().isEmpty());
    EXPECT_DOUBLE_EQ(geometry.beatWidth(), GridGeometry::narrowestBeat);
}
