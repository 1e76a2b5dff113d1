// The page marks of a study file, read.
#pragma once

#include "core/music/PageMarks.h"
#include "core/study/StrictJson.h"

namespace earwright {

/// Members "beatsPerBar" and "beatUnit".
Meter readMeter(const StrictJson& json);

/// Member "page" of the whole study. Problems go to the FirstProblem of `json`.
PageMarks readPageMarks(const StrictJson& json, const Meter& first);

} // namespace earwright
