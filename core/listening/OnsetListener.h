// Goes through a passage in steps of ten milliseconds and asks of each whether a note begins.
#pragma once

#include "core/listening/OnsetTrack.h"
#include "core/listening/StereoViews.h"
#include "core/listening/TuningCurve.h"
#include "core/result/Result.h"
#include "core/time/Range.h"

#include <stop_token>

namespace earwright {

/// Onset evidence of one view of a passage. Errors: Cancelled. `progress` is called on this thread.
Result<OnsetTrack> listenForOnsets(const StereoViews& views, std::size_t view, const TuningCurve& tuning,
                                   Range<Seconds> passage, std::stop_token stop, const Progress& progress);

} // namespace earwright
