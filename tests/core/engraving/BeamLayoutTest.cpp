#include "core/engraving/BeamLayout.h"

#include "MusicFont.h"
#include "SampleLines.h"
#include "core/engraving/Engraving.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

// The rules stated in BeamLayout.h (Gould, Ross; from memory).
TEST(BeamRise, FollowsTheLineAQuarterSpaceAStepUpToOneSpace) {
    EXPECT_EQ(beamRise({0, 1}, true, 10), 0.25);
    EXPECT_EQ(beamRise({0, -2}, true, 10), -0.5);
    EXPECT_EQ(beamRise({0, 7}, false, 10), 1);
    EXPECT_EQ(beamRise({3, 5, 3}, false, 10), 0);
}

TEST(BeamRise, IsNoneWhereAnInnerNoteLiesNearestToTheBeam) {
    EXPECT_EQ(beamRise({0, 4, 2}, true, 10), 0);
    EXPECT_EQ(beamRise({0, -4, 2}, false, 10), 0);
    EXPECT_EQ(beamRise({0, -4, 2}, true, 10), 0.5);
}

TEST(BeamRise, IsSmallerInNarrowGroups) {
    EXPECT_LT(beamRise({0, 7}, true, 2), 0.5);
}

TEST(Beams, AreLongEnoughAndNeverSteep) {
    NEEDS_MUSIC_FONT;
    int seen = 0;
    for (unsigned seed = 1; seed <= 20; ++seed) {
        const Study study = chanceStudy(seed, 8);
        const auto systems = engraveSystems(study, wholeStudy(study), {}, musicFont());
        ASSERT_TRUE(systems);
        for (const EngravedSystem& system : *systems)
            for (const PlacedBeam& beam : system.shapes.beams) {
                ++seen;
                const double rise = beam.corners[1].y - beam.corners[0].y;
                // Snapping to the staff's lines moves each end by less than half a space.
                EXPECT_LE(std::abs(rise), 1.5) << "seed " << seed;
                EXPECT_LT(beam.corners[0].x, beam.corners[1].x);
            }
    }
    EXPECT_GT(seen, 400);
}

} // namespace
} // namespace earwright
