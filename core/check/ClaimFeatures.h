// The few numbers a claim is judged by.
#pragma once

#include "core/check/ClaimContext.h"

#include <array>
#include <cstddef>
#include <vector>

namespace earwright {

inline constexpr std::size_t claimFeatureCount = 9;
using ClaimFeatures = std::array<float, claimFeatureCount>;

/// One row a claim: how far its pitch leads all others with and without what the neighbours say, whether a
/// note of its pitch begins within 50 ms or rather somewhere else nearby, its length, and its distance
/// from the register of its neighbours.
std::vector<ClaimFeatures> claimFeatures(const ClaimContext& context);

} // namespace earwright
