// A part of a recording at another speed and pitch, rendered at leisure.
#pragma once

#include "core/engine/Engine.h"
#include "core/result/Result.h"
#include "core/sound/Recording.h"
#include "core/time/Frames.h"

#include <cstdint>
#include <functional>
#include <memory>
#include <span>

namespace earwright {

/// Takes blocks of interleaved samples in the recording's channels and rate.
using ExcerptSink = std::function<Result<Done>(std::span<const float>)>;

/// Renders `frames` frames from a place on, by the same code as the engine plays: the first is the sound of
/// that place, the record before it is heard by the stretcher but not written. Levels stay below full scale.
/// Errors: those of the sink. Any thread; takes about a tenth of the time it lasts.
Result<Done> renderExcerpt(std::shared_ptr<Recording> recording, Frames from, std::int64_t frames,
                           const Playing& playing, const ExcerptSink& sink);

} // namespace earwright
