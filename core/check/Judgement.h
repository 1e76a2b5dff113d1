// From the numbers about a claim, or about a sound without one, to a probability and a verdict.
#pragma once

#include "core/check/ClaimFeatures.h"
#include "core/check/UnwrittenSounds.h"
#include "core/check/Verdict.h"

#include <cstddef>
#include <vector>

namespace earwright {

/// Probability that a claim is right, 0 to 1: that its pitch is, times that a note begins there. Learned on
/// rendered solos with planted mistakes (a quarter of the notes), see core/check/training/odds.py; how well
/// they do is told in core/listening/training/README.md.
double probabilityRight(const ClaimFeatures& features);

/// The two factors of it.
double probabilityOfPitch(const ClaimFeatures& features);
double probabilityOfBeginning(const ClaimFeatures& features);

/// Probability that a suggested pitch is what was played at the claim.
double probabilityOfSuggestion(const std::array<float, suggestionFeatureCount>& features);

/// Probabilities that unclaimed onsets are notes of the line, and of the pitches they are named with: by what
/// is heard of each, and by how much else sounds. As many notes are left out of a line alone as of one over a
/// band, but over a band most other onsets are the band's; so the odds fall in proportion to the onsets that
/// are none of the line, for each note that is one, claimed or not (Bayes' rule, the prior odds being notes
/// left out to other onsets). Counted between an eighth of an onset a note and three; where nothing is
/// claimed, only what is heard of each counts.
std::vector<double> probabilitiesOfNotes(const std::vector<UnwrittenCandidate>& candidates,
                                         std::size_t claims);

/// Whether an unclaimed onset of these features, which tell how much it can be at best, may reach
/// unwrittenAbove however little else sounds.
bool mayBeListed(const std::array<float, unwrittenFeatureCount>& atBest);

/// Above this a claim is supported.
inline constexpr double supportedAbove = 0.90;
/// Found beside its place it must be surer: few right notes are played so far off, and a wrong one has twice
/// the chance to meet a sound of its pitch.
inline constexpr double supportedBesideAbove = 0.95;
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
