#include "core/music/Swing.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(Swing, PutsTheSecondOfAPairWhereItsRatioSays) {
    EXPECT_DOUBLE_EQ(Swing{}.played(0.5), 0.5);
    EXPECT_DOUBLE_EQ((Swing{2, 8}.played(0.5)), 2.0 / 3) << "the third note of a triplet";
    EXPECT_DOUBLE_EQ((Swing{3, 8}.played(0.5)), 0.75) << "the sixteenth after a dotted eighth";
}

TEST(Swing, KeepsTheEndsOfAPairAndTheOrderWithin) {
    for (const double ratio : {1.0, 1.5, 2.0, 4.0}) {
        const Swing swing{ratio, 8};
        EXPECT_DOUBLE_EQ(swing.played(0), 0);
        EXPECT_DOUBLE_EQ(swing.played(1), 1);
        for (double place = 0.01; place < 1; place += 0.01)
            EXPECT_GT(swing.played(place), swing.played(place - 0.01)) << ratio;
    }
}

} // namespace
} // namespace earwright
