// A take as the engine plays it.
#pragma once

#include "core/sound/Recording.h"
#include "core/time/Frames.h"
#include "core/time/Range.h"

#include <memory>

namespace earwright {

/// Which part of a sound file was played along with which place of the recording, and how.
struct TakePlayback {
    std::shared_ptr<Recording> sound;
    /// In frames of the sound file; what is outside is not heard.
    Range<Frames> part;
    /// Frame of the recording heard with the part's first.
    Frames at;
    /// Seconds of the recording a second of the take covers; the speed it was played at.
    double speed = 1;
    /// How far the recording was transposed then, cents as a fraction.
    double semitones = 0;
    friend bool operator==(const TakePlayback&, const TakePlayback&) = default;
};

} // namespace earwright
