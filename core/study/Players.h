// Who plays on the recording, as far as the user says it and listening is helped by it.
#pragma once

#include "core/music/LineInstrument.h"

#include <optional>

namespace earwright {

/// Where in the stereo picture somebody stands.
enum class StereoPlace { Unknown, Left, Centre, Right };

/// What is not said is left to the program.
struct Players {
    /// What plays the line that is written.
    std::optional<LineInstrument> line;
    StereoPlace bass = StereoPlace::Unknown;
    friend bool operator==(const Players&, const Players&) = default;
};

} // namespace earwright
