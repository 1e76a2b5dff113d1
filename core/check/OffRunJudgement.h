// The second judgement of claims that are off together: in the one way in which all of them are right.
#pragma once

#include "core/check/Claim.h"
#include "core/check/JudgedClaims.h"
#include "core/listening/PassageEvidence.h"

#include <vector>

namespace earwright {

/// Judges runs of doubtful claims (offRunIn) as they would be right. Where nearly all of a run are supported
/// there, its claims are told to be off together (ClaimAnswer::together) and, where they are not supported as
/// they stand, to begin there or to be an octave away, instead of each being corrected to what its neighbour
/// sounds like; in the context they are then where they sound. Listens once more for each such run, and not
/// at all where there is none. `laid`: the claims where they are written, or where the swing lays them.
void judgeOffRuns(const PassageEvidence& evidence, const std::vector<Claim>& laid, JudgedClaims& judged);

} // namespace earwright
