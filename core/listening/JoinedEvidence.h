// What a span sounds like and what begins with it, taken together.
#pragma once

#include "core/listening/OnsetTrack.h"
#include "core/listening/PitchRow.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <vector>

namespace earwright {

/// How much the evidence of a span counts where it is joined with the onsets.
inline constexpr float spanShare = 0.6f;

/// Joins the evidence of spans with that of the onsets within 20 ms of their beginnings, normalised. Both
/// hear much the same sound, so neither counts in full.
/// Requires: as many rows as spans.
std::vector<PitchRow> joinedWithOnsets(const std::vector<PitchRow>& rows,
                                       const std::vector<Range<Seconds>>& spans, const OnsetTrack& onsets);

} // namespace earwright
