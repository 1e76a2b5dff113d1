// What the last step of the hint ladder shows: how strongly the recording supports each pitch at one place.
#pragma once

#include "core/time/Beats.h"
#include "core/time/Range.h"

#include <vector>

namespace earwright::ui {

struct PitchStrength {
    int midi = 60;
    /// 0 (nothing) to 1 (certain): the root of the pitch's probability. Not relative to the other pitches, so
    /// that where the recording says little the dots stay small.
    double strength = 0;
    friend bool operator==(const PitchStrength&, const PitchStrength&) = default;
};

/// One place at a time: the recording's pitches are never shown as a whole.
struct ColumnEvidence {
    Range<Beats> range;
    std::vector<PitchStrength> pitches;
    friend bool operator==(const ColumnEvidence&, const ColumnEvidence&) = default;

    /// Lower pitches of the pairs an octave apart between which the recording leaves the choice: together
    /// more likely than everything else, and the weaker one not a speck.
    std::vector<int> octavePairs() const;
};

} // namespace earwright::ui
