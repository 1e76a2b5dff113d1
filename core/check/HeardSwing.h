// How far eighths swing that are written evenly, from the onsets of the written pitches.
#pragma once

#include "core/check/Claim.h"
#include "core/check/Feel.h"
#include "core/listening/PassageEvidence.h"

#include <optional>
#include <vector>

namespace earwright {

/// Claims with their evenly written pairs (Claim::evenPair) laid out as they are heard.
struct PairsHeard {
    /// What they were, the second notes of the pairs, and what ends with them, moved to the swing.
    std::vector<Claim> asPlayed;
    /// Enough pairs were heard to tell how they are divided, be it evenly.
    bool enough = false;
    /// Where they swing.
    std::optional<SwingFeel> swing = std::nullopt;
};

/// Of the shares of a pair that the first of two eighths may have, up to four fifths, the one at which the
/// onsets of the second ones' pitches speak most, by their mean log probability; its ratio and spread are
/// told from the places where those onsets are heard, as durations from onset to onset (Friberg and
/// Sundström, see feelOf), or, where nothing is heard on a beat, from as far behind its place as other
/// notes are heard. Too few pairs (Feel::leastPairs) say nothing. Takes little beside the check: no
/// span is listened to. A pure function. Requires: claims by time, pitches that are listened for.
PairsHeard swingIn(const PassageEvidence& evidence, std::vector<Claim> claims);

} // namespace earwright
