#include "ui/grid/SignPlaces.h"

#include "core/study/PhrasingEdits.h"
#include "tests/ui/grid/SampleStudy.h"
#include "ui/grid/GridGeometry.h"
#include "ui/grid/NotePainter.h"

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

/// A note with as many marks as one can have.
Phrasing everything(bool ringing) {
    Phrasing phrasing;
    phrasing.slideIn = SlideFrom::Below;
    phrasing.trill = 2;
    phrasing.turn = Turn::FromAbove;
    phrasing.mordent = Mordent::Lower;
    phrasing.slurred = ringing;
    phrasing.pickedInSlur = !ringing;
    if (ringing) phrasing.slurBy = SlurBy::HammerOn;
    phrasing.bend = Bend{6, BendShape::UpAndDown};
    phrasing.vibrato = phrasing.fall = phrasing.scoop = phrasing.accented = phrasing.tenuto = true;
    phrasing.staccato = !ringing;
    phrasing.letRing = ringing;
    return phrasing;
}

} // namespace

TEST(SignPlaces, NeverTouchEachOtherNorTheHeadNorItsDegree) {
    const QPointF head(100, 100);
    for (const bool ringing : {false, true})
        for (const bool narrow : {false, true})
            for (const double radius : {4.0, 6.5}) {
                const auto signs = placeSigns(everything(ringing), {head, radius, true, narrow});
                ASSERT_GE(signs.size(), narrow ? 9u : 6u);
                const QRectF body(head.x() - radius, head.y() - radius, 2 * radius, 2 * radius);
                const QRectF degree(head.x() - 20, head.y() - radius - 13, 40, 12);
                for (std::size_t i = 0; i < signs.size(); ++i) {
                    EXPECT_FALSE(signs[i].box.intersects(body));
                    EXPECT_FALSE(signs[i].box.intersects(degree));
                    for (std::size_t k = 0; k < i; ++k)
                        EXPECT_FALSE(signs[i].box.intersects(signs[k].box)) << i << " and " << k;
                }
            }
}

// The signs of notes in neighbouring columns stand side by side, however narrow the columns are.
TEST(SignPlaces, OfNeighbouringColumnsKeepApart) {
    Study study = emptySample();
    study.divisions[Beats(4)] = BeatDivision::Twelve;
    const GridGeometry geometry(GridColumns(study, {Beats(4), Beats(12)}), QSizeF(300, 600));
    const Note one = sampleNote(1, Beats(4), Beats(1, 12), 67);
    const Note other = sampleNote(2, Beats(49, 12), Beats(1, 12), 67);
    for (const PlacedSign& mine :
         placeSigns(everything(true), {geometry.head(one), headRadius(one), true, true}))
        for (const PlacedSign& theirs :
             placeSigns(everything(false), {geometry.head(other), headRadius(other), true, true}))
            EXPECT_FALSE(mine.box.intersects(theirs.box));
}

TEST(SignPlaces, ArticulationsStandNearestToTheHead) {
    Phrasing phrasing;
    phrasing.staccato = phrasing.accented = true;
    const auto signs = placeSigns(phrasing, {QPointF(100, 100), 5, false, false});
    ASSERT_EQ(signs.size(), 2u);
    EXPECT_EQ(signs[0].kind, PhrasingKind::Staccato);
    EXPECT_LT(signs[0].box.top(), signs[1].box.top());
}
