// What the last step of the hint ladder shows: how strongly the recording supports each pitch at one place.
#pragma once

#include "core/listening/PitchStrength.h"
#include "core/time/Beats.h"
#include "core/time/Range.h"

#include <vector>

namespace earwright::ui {

/// One place at a time: the recording's pitches are never shown as a whole.
struct ColumnEvidence {
    Range<Beats> range;
    std::vector<PitchStrength> pitches;
    friend bool operator==(const ColumnEvidence&, const ColumnEvidence&) = default;
};

} // namespace earwright::ui
