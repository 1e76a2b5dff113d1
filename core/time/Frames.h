// Places in the recording, in the device's output and in its input, each counted in its own frames.
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

struct InputFramesTag;
/// Frames that came from the input device since the engine was made, over all inputs, at the input's rate.
using InputFrames = Quantity<InputFramesTag, std::int64_t>;

} // namespace earwright
