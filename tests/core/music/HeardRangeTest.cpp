#include "core/music/HeardRange.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(HeardRange, LeavesARangeWithinHearingAlone) {
    for (const NamedInstrument& named : namedInstruments())
        EXPECT_EQ(withinHearing(named.range), named.range) << named.word;
}

TEST(HeardRange, CutsOffWhatReachesBelowE1OrAboveC7) {
    // E1 is MIDI 28 and C7 96, C4 being 60 (MIDI 1.0).
    EXPECT_EQ(withinHearing({0, 127}), (PitchRange{28, 96}));
    EXPECT_EQ(withinHearing({20, 50}), (PitchRange{28, 50}));
    EXPECT_EQ(withinHearing({60, 100}), (PitchRange{60, 96}));
}

TEST(HeardRange, IsNothingWhereLessThanTwoNotesAreLeft) {
    EXPECT_EQ(withinHearing({97, 127}), std::nullopt);
    EXPECT_EQ(withinHearing({0, 27}), std::nullopt);
    EXPECT_EQ(withinHearing({96, 120}), std::nullopt);
    EXPECT_EQ(withinHearing({96 - 1, 120}), (PitchRange{95, 96}));
}

} // namespace
} // namespace earwright
