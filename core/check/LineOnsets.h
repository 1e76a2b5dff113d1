// The onsets of a line, in the view of the stereo picture that bears out its notes.
#pragma once

#include "core/check/Claim.h"
#include "core/listening/OnsetTrack.h"
#include "core/listening/PassageEvidence.h"

#include <vector>

namespace earwright {

/// An onset that is likelier than one in five at some place is heard.
inline constexpr float onsetHeardAbove = -1.6f;

/// A pitch's strongest onset within a reach of a time; one of the least probability, at that time, where none
/// is stronger than e^−7. Requires: lowestHeardMidi ≤ midi ≤ highestHeardMidi.
PlacedOnset strongestAbout(const OnsetTrack& onsets, int midi, Seconds centre, Seconds reach);

/// The onsets of the view in which those of the claims are likeliest, by their mean log probability within
/// 50 ms. Seconds of evenly written pairs (Claim::evenPair) are not asked: they may swing. Requires: pitches
/// that are listened for.
OnsetTrack lineOnsets(const PassageEvidence& evidence, const std::vector<Claim>& claims);

/// How far behind their places the notes that begin no second half are heard as a rule: the median; 0 where
/// fewer than four are heard.
Seconds usualLagOf(const OnsetTrack& onsets, const std::vector<Claim>& claims);

} // namespace earwright
