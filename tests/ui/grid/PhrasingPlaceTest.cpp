#include "ui/grid/PhrasingPlace.h"

#include "tests/ui/grid/SampleStudy.h"

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

const GridColumns columns(emptySample(), {Beats(4), Beats(12)});
const GridGeometry geometry(columns,
                            QSizeF(gridmargins::labels + 480 + gridmargins::right, gridmargins::top + 400),
                            QPointF(0, 300));
constexpr QSizeF size(200, 26);

std::optional<QRectF> freePlaceFor(const Note& note, std::vector<Note> others = {}) {
    Study study = emptySample();
    study.notes = std::move(others);
    study.notes.push_back(note);
    return freePlaceBeside(note, size, study, geometry);
}

QRectF placeFor(const Note& note, std::vector<Note> others = {}) {
    const auto place = freePlaceFor(note, std::move(others));
    EXPECT_TRUE(place);
    return place.value_or(QRectF());
}

} // namespace

TEST(PhrasingPlace, IsBelowTheNoteWhereThereIsRoom) {
    const Note note = sampleNote(1, Beats(5), Beats(1), 67);
    EXPECT_GT(placeFor(note).top(), geometry.outline(note).bottom());
}

TEST(PhrasingPlace, StaysWithinTheCellsAndOffTheNoteAnywhere) {
    const QRectF cells = geometry.cells();
    for (const Beats& onset : {Beats(4), Beats(8), Beats(23, 2)})
        for (int midi = *geometry.midiAt(cells.bottom() - 1); midi <= *geometry.midiAt(cells.top() + 1);
             ++midi) {
            const Note note = sampleNote(1, onset, Beats(1, 2), midi);
            EXPECT_TRUE(cells.contains(placeFor(note))) << midi;
            EXPECT_FALSE(placeFor(note).intersects(geometry.outline(note))) << midi;
        }
}

TEST(PhrasingPlace, GoesAboveADescendingLine) {
    const Note note = sampleNote(1, Beats(5), Beats(1, 2), 67);
    const QRectF place = placeFor(
        note, {sampleNote(2, Beats(11, 2), Beats(1, 2), 65), sampleNote(3, Beats(6), Beats(1, 2), 64)});
    EXPECT_LT(place.bottom(), geometry.outline(note).top());
}

TEST(PhrasingPlace, IsNowhereBesideTheNoteWhereOthersLieOnAllSides) {
    std::vector<Note> others;
    for (int i = 0; i < 16; ++i)
        for (const int midi : {64, 70})
            others.push_back(sampleNote(static_cast<std::uint64_t>(2 * i + 2 + midi % 2),
                                        Beats(4) + Beats(i, 2), Beats(1, 2), midi));
    EXPECT_FALSE(freePlaceFor(sampleNote(1, Beats(5), Beats(1, 2), 67), others));
}

TEST(PhrasingPlace, IsUnderTheCellsInTheMiddleOfTheLaneAndNeverBesideTheView) {
    const QRectF place = placeUnderCells(size, geometry);
    EXPECT_TRUE(geometry.markLane().contains(place));
    EXPECT_DOUBLE_EQ(place.left(), geometry.cells().left());
    const QRectF wide = placeUnderCells({540, 26}, geometry);
    EXPECT_LT(wide.left(), geometry.cells().left());
    EXPECT_GE(wide.left(), 0);
    EXPECT_LE(wide.right(), geometry.cells().right());
    EXPECT_DOUBLE_EQ(placeUnderCells({2000, 26}, geometry).left(), 0);
}
