// Onsets of the line with no claim near them.
#pragma once

#include "core/check/ClaimContext.h"
#include "core/check/PhraseCheck.h"
#include "core/listening/PassageEvidence.h"

#include <array>
#include <cstddef>
#include <vector>

namespace earwright {

inline constexpr std::size_t unwrittenFeatureCount = 10;

/// A place where something begins and nothing is claimed.
struct UnwrittenCandidate {
    Range<Seconds> range;
    int midi = 60;
    /// Onset and span evidence of its pitch, how well it fits between the claims around it, and how alone it
    /// stands.
    std::array<float, unwrittenFeatureCount> features{};
    /// It lies within the claim before, which is borne out, or shortly after it, has its pitch, and is struck
    /// again all the same.
    bool isStruckAgain = false;
};

/// Peaks of the onset evidence at least 30 ms from every claim, each named by its own evidence and the notes
/// before and after it; what begins so faintly that it is the one before sounding on, is one with that.
/// `line`: the context's claims by onset, with the pitches that are rather heard where others are written, so
/// that a note whose pitch is wrong is not found again while it sounds on. The context's may come in any
/// order. `borneOut`: those of the context's that are supported.
std::vector<UnwrittenCandidate> unwrittenCandidates(const PassageEvidence& evidence,
                                                    const ClaimContext& context,
                                                    const std::vector<Claim>& line,
                                                    const std::vector<Claim>& borneOut);

} // namespace earwright
