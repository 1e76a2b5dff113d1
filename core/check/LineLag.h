// How far a whole line lies behind where it is written.
#pragma once

#include "core/check/Claim.h"
#include "core/listening/PassageEvidence.h"
#include "core/time/Seconds.h"

#include <vector>

namespace earwright {

/// How far behind the claims (ahead: negative) the onsets of their own pitches are heard, in the middle: who
/// plays well behind the beat, or taps bars a little early, has a whole line that lies beside its places, and
/// every note of it is to be judged where it is. Up to 90 ms; nought below 25 ms, which lies within what a
/// note may be off anyway, and where fewer than five claims or less than half of them tell, or they do not
/// agree. Listens to no span. A pure function. Requires: pitches that are listened for.
Seconds lineLag(const PassageEvidence& evidence, const std::vector<Claim>& claims);

} // namespace earwright
