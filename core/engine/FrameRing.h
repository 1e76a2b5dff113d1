// Frames on their way from the worker to the callback.
#pragma once

#include "core/engine/SpscRing.h"

namespace earwright {

/// One frame of what may be heard: the record in stereo and the written notes, not yet mixed.
struct SoundFrame {
    float left = 0;
    float right = 0;
    float yours = 0;
};

using FrameRing = SpscRing<SoundFrame>;

} // namespace earwright
