// A passage's evidence as it looks once claims are laid over it.
#pragma once

#include "core/check/Claim.h"
#include "core/check/StruckAgain.h"
#include "core/listening/LineColour.h"
#include "core/listening/OnsetTrack.h"
#include "core/listening/PassageEvidence.h"
#include "core/listening/ViewBlend.h"

#include <optional>
#include <vector>

namespace earwright {

/// Claims by onset as they are written, even where one was moved to where it is played, and what the clearest
/// view of the passage says about each.
struct ClaimContext {
    std::vector<Claim> claims;
    ViewBlend blend;
    /// Evidence of each claim's span alone.
    std::vector<PitchRow> own;
    /// The same joined with the onsets, with what the neighbours say, and with what is written, for each of
    /// them as a first guess (playedWhereWritten).
    std::vector<PitchRow> withNeighbours;
    /// Evidence of 70 ms before each claim: what may still be sounding when it begins.
    std::vector<PitchRow> before;
    OnsetTrack onsets;
    /// What the line was heard to sound like: the rows above are for such a line.
    LineColour colour = {};
    /// What the level of its partials says to each claim's beginning (renewalsOf); empty where that was not
    /// listened for.
    std::vector<Renewal> renewals = {};

    /// Takes over all that is known of a claim from where it was heard elsewhere.
    void take(std::size_t claim, const ClaimContext& elsewhere, std::size_t there);

    Renewal renewal(std::size_t claim) const {
        return renewals.empty() ? Renewal::NotAsked : renewals[claim];
    }
    std::size_t pitchIndex(std::size_t claim) const {
        return static_cast<std::size_t>(claims[claim].midi - lowestHeardMidi);
    }
};

/// Lays claims over the evidence of their passage, heard as of any line. `colour`: of the line, if it is
/// known; otherwise it is learned where the claims lie. Requires: claims sorted by onset, pitches between
/// lowestHeardMidi and highestHeardMidi.
ClaimContext contextOf(const PassageEvidence& evidence, std::vector<Claim> claims,
                       const std::optional<LineColour>& colour = {});

} // namespace earwright
