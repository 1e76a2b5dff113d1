// The answers to the claims of a passage, each by itself.
#pragma once

#include "core/check/Claim.h"
#include "core/check/ClaimContext.h"
#include "core/listening/PassageEvidence.h"

#include <cstddef>
#include <vector>

namespace earwright {

/// The answers to claims in order of time as written, and the claims where each was found to begin: of two
/// that are written at one place the second may come first.
struct JudgedClaims {
    std::vector<ClaimAnswer> answers;
    ClaimContext context;
};

/// Places of the claims that can be judged, by time.
std::vector<std::size_t> judgedInOrder(const std::vector<Claim>& claims);
std::vector<Claim> inOrder(const std::vector<Claim>& claims, const std::vector<std::size_t>& order);

/// The answers to claims where they stand.
std::vector<ClaimAnswer> answersIn(const ClaimContext& context);

/// Judges claims where they stand, and what is not supported there once more where its pitch begins nearby.
/// Requires: claims as judgedInOrder() puts them.
JudgedClaims judgedAsPlayed(const PassageEvidence& evidence, std::vector<Claim> claims, bool swingKnown);

/// Of claims at one place that suggest the same pitch only the likeliest can be it: the others stand where no
/// note of theirs begins.
void suggestOnce(std::vector<ClaimAnswer>& answers, const ClaimContext& context);

} // namespace earwright
