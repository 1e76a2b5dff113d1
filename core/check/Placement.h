// How exactly the claims of a passage lie on the notes they mean.
#pragma once

#include "core/check/ClaimContext.h"
#include "core/check/Verdict.h"

#include <cstddef>
#include <vector>

namespace earwright {

/// How far a sound may lie from a claim and still be what the claim means: three times the median distance of
/// the supported claims from their onsets, 30 to 60 ms; 60 where fewer than eight are supported. Who writes
/// on a grid, or by ear, is some 20 ms off; who corrected every onset is not, and what begins 40 ms away from
/// his notes is another note. `verdicts`: one a claim of the context.
Seconds placementTolerance(const ClaimContext& context, const std::vector<Verdict>& verdicts);

/// Whether a pitch clearly begins within 60 ms of a claim, but farther from it than the tolerance: then it is
/// another note's. Requires: a pitch that is listened for.
bool beginsBeside(const ClaimContext& context, std::size_t claim, int midi, Seconds tolerance);

} // namespace earwright
