// A written note as the engine needs it: when, how high, how hard; no study behind it.
#pragma once

#include "core/engine/Stroke.h"
#include "core/time/Frames.h"

#include <array>
#include <cstddef>
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
    Stroke stroke = Stroke::Picked;
    /// Which of the notes that sound together it is, from the lowest; see StringGesture.
    std::size_t voice = 0;
    /// Semitones the note starts away from its pitch and glides in from; 0 for none.
    double slideInSemitones = 0;
    double slideOutSemitones = 0;
    /// The slides are the slower ones of a scoop and of a fall.
    bool scoop = false;
    bool fall = false;
    std::vector<int> graceMidi;
    std::optional<int> trillSemitones;
    /// Semitones from the pitch that are touched quickly before it settles, as in a turn or mordent.
    std::vector<int> figureSemitones;
    /// Semitones the string is pulled up by at the note's onset, in its middle and at its end.
    std::array<double, 3> bend{};
    bool vibrato = false;
    friend bool operator==(const TimedNote&, const TimedNote&) = default;
};

} // namespace earwright
