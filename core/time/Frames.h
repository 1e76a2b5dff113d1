// Places in the recording and in the device's output, each counted in its own frames.
#pragma once

#include "core/time/Quantity.h"

#include <cstdint>

namespace earwright {

struct FramesTag;
/// Frames of the recording at the recording's own rate; frame 0 is its first.
using Frames = Quantity<FramesTag, std::int64_t>;

struct OutputFramesTag;
/// Frames handed to the sound device since the stream was opened, at the device's rate.
using OutputFrames = Quantity<OutputFramesTag, std::int64_t>;

} // namespace earwright
