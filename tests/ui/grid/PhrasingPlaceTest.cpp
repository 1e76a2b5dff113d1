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

QRectF placeFor(const Note& note, std::vector<Note> others = {}) {
    Study study = emptySample();
    study.notes = std::move(others);
    study.notes.push_back(note);
    return placeBeside(note, size, study, geometry);
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
