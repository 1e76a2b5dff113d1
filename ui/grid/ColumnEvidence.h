// What the last step of the hint ladder shows: how strongly the recording supports each pitch at one place.
#pragma once

#include "core/listening/PitchStrength.h"
#include "core/time/Beats.h"
#include "core/time/Range.h"

#include <QString>

#include <utility>
#include <vector>

namespace earwright::ui {

/// One place at a time: the recording's pitches are never shown as a whole.
struct ColumnEvidence {
    ColumnEvidence(const Range<Beats>& place, std::vector<PitchStrength> heard, QString where = {})
        : range(place),
          pitches(std::move(heard)),
          rivals(octaveRivals(pitches)),
          listened(std::move(where)) {}

    Range<Beats> range;
    std::vector<PitchStrength> pitches;
    /// The octaves between which the recording leaves the choice, rising; empty where it does not.
    std::vector<PitchStrength> rivals;
    /// Where was listened for them, as listenedText() words it.
    QString listened;
    friend bool operator==(const ColumnEvidence&, const ColumnEvidence&) = default;
};

} // namespace earwright::ui
