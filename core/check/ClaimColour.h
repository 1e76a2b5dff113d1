// What the line that is written in a passage sounds like.
#pragma once

#include "core/check/Claim.h"
#include "core/listening/LineColour.h"
#include "core/listening/OnsetTrack.h"
#include "core/listening/PassageEvidence.h"
#include "core/listening/ViewBlend.h"

#include <vector>

namespace earwright {

/// The claims, each told whether the one before or after it is written within 40 ms of it.
/// Requires: claims sorted by onset.
std::vector<Claim> toldWhatIsStruckTogether(std::vector<Claim> claims);

/// The colour of the line where single claims lie (colourOf): their places count, their pitches don't, so
/// that a wrong one cannot speak for itself. Plain without any. Requires: claims sorted by onset.
LineColour colourWhereClaimed(const std::vector<Claim>& claims, const PassageEvidence& evidence,
                              const ViewBlend& blend, const OnsetTrack& onsets);

} // namespace earwright
