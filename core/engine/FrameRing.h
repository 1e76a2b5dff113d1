// Frames on their way from the worker to the callback.
#pragma once

#include "core/engine/SpscRing.h"

namespace earwright {

/// One frame of what may be heard: the record in stereo, the written notes and the clicks, not yet mixed.
struct SoundFrame {
    float left = 0;
    float right = 0;
    float yours = 0;
    /// The beats, heard where they are wished for.
    float clicks = 0;
    /// Those of a count-in, heard in any case.
    float counted = 0;
    /// What the loudness of all this is to be measured by: the recording's own power there (see Power).
    float measurePlain = 0;
    float measureWeighted = 0;
};

using FrameRing = SpscRing<SoundFrame>;

} // namespace earwright
