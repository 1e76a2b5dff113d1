// What each view of a passage says about the claims, as far as that can matter.
#pragma once

#include "core/check/Claim.h"
#include "core/listening/PassageEvidence.h"
#include "core/listening/PitchRow.h"

#include <vector>

namespace earwright {

struct ClaimViews {
    /// One list a view, a row a claim. Of a view that was given up most rows say nothing.
    std::vector<std::vector<PitchRow>> rows;
    /// How well each view bears out the claims: mean log probability, none of them counted below −4, so that
    /// a claim a view cannot hear at all does not decide alone.
    std::vector<double> sureness;
};

/// Hears every fourth claim in all views and the others only in the three that hear those best, less any that
/// are hopelessly behind: their weight would be below a millionth (ViewBlend). Views that hear a line alike
/// tell no more together; with five of them nothing was judged better. A few claims are heard in every view.
ClaimViews hearClaims(const PassageEvidence& evidence, const std::vector<Claim>& claims);

} // namespace earwright
