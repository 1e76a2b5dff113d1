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

/// Above this a claim is supported.
inline constexpr double supportedAbove = 0.90;
/// Below this it is contradicted, whatever else may have been played.
inline constexpr double contradictedBelow = 0.30;
/// Suggestions below this are wrong more often than right, counted over all kinds of mistakes, and are
/// not given.
inline constexpr double suggestedAbove = 0.35;
/// What an unwritten sound must reach to be listed.
inline constexpr double unwrittenAbove = 0.35;

/// The verdict on a claim that is right with one probability, where the likeliest other pitch is what was
/// played with the other one. A claim that is not supported is contradicted where the other pitch is at
/// least as probable.
Verdict verdictOf(double right, double another);

} // namespace earwright
