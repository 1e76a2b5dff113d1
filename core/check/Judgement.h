// From the numbers about a claim, or about a sound without one, to a probability and a verdict.
#pragma once

#include "core/check/ClaimFeatures.h"
#include "core/check/UnwrittenSounds.h"
#include "core/check/Verdict.h"

namespace earwright {

/// Probability that a claim is right, 0 to 1: that its pitch is, times that a note begins there. Learned on
/// rendered solos with planted mistakes (a quarter of the notes), see core/check/training/odds.py; how well
/// they do is told in core/listening/training/README.md.
double probabilityRight(const ClaimFeatures& features);

/// Probability that a suggested pitch is what was played at the claim.
double probabilityOfSuggestion(const std::array<float, suggestionFeatureCount>& features);

/// Probability that an unclaimed onset is a note of the line, and of the pitch it is named with.
double probabilityOfNote(const std::array<float, unwrittenFeatureCount>& features);

/// Below this a claim is contradicted, above the other it is supported.
inline constexpr double contradictedBelow = 0.40;
inline constexpr double supportedAbove = 0.90;
/// Below this a suggestion misleads more often than it helps; of those a little above it half are right.
inline constexpr double suggestedAbove = 0.4;
/// What an unwritten sound must reach to be listed.
inline constexpr double unwrittenAbove = 0.35;

Verdict verdictOf(double probability);

} // namespace earwright
