#include "ui/desk/BandDesk.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

Note note(int midi) {
    Note written;
    written.pitch.midi = midi;
    return written;
}

TEST(BandAround, ReachesFromUnderTheLowestNoteToTheHighestsFourthPartial) {
    EXPECT_EQ(bandAround({note(60), note(72), note(65)}), (BandEdges{58, 96}));
    EXPECT_EQ(bandAround({}), std::nullopt);
}

TEST(BandAround, StaysWithinTheLimits) {
    EXPECT_EQ(bandAround({note(21), note(108)}), (BandEdges{BandEdges::lowest, BandEdges::highest}));
}

// ISO 16: A4 is 440 Hz; a quarter tone is a twenty-fourth of an octave.
TEST(BandOf, LeavesTheNotesItIsNamedByInside) {
    const Band band = bandOf(BandUse::Only, {57, 69});
    EXPECT_NEAR(band.lowHertz, 220 / std::exp2(1.0 / 24), 1e-9);
    EXPECT_NEAR(band.highHertz, 440 * std::exp2(1.0 / 24), 1e-9);
    EXPECT_FALSE(band.remove);
    EXPECT_TRUE(bandOf(BandUse::Without, {57, 69}).remove);
}

TEST(BandOf, IsOpenWhereAnEdgeIsAtItsLimit) {
    const Band band = bandOf(BandUse::Only, {BandEdges::lowest, BandEdges::highest});
    EXPECT_EQ(band.lowHertz, Band::lowestHertz);
    EXPECT_EQ(band.highHertz, Band::highestHertz);
}

} // namespace
} // namespace earwright::ui
