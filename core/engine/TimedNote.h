// A written note as the engine needs it: when, how high, how hard; no study behind it.
#pragma once

#include "core/time/Frames.h"

#include <optional>
#include <vector>

namespace earwright {

/// Times in frames of the recording; the engine turns them into output time.
struct TimedNote {
    Frames onset;
    Frames end;
    int midi = 60;
    /// 0 to 1, ghost and accent already applied.
    double loudness = 0.6;
    /// Slurred: sounds on without a new pluck.
    bool slurred = false;
    /// Semitones the note starts away from its pitch and glides in from; 0 for none.
    double slideInSemitones = 0;
    double slideOutSemitones = 0;
    std::vector<int> graceMidi;
    std::optional<int> trillSemitones;
    friend bool operator==(const TimedNote&, const TimedNote&) = default;
};

} // namespace earwright
