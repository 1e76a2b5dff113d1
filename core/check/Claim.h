// A note as the check sees it: when, how long, which pitch.
#pragma once

#include "core/check/Verdict.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <optional>

namespace earwright {

/// A claim that a note of the line sounds here.
struct Claim {
    Range<Seconds> range;
    /// Counted from the recording's own tuning.
    int midi = 60;
    friend bool operator==(const Claim&, const Claim&) = default;
};

/// The answer to one claim.
struct ClaimAnswer {
    Verdict verdict = Verdict::Unclear;
    /// Probability that the claim is right: its pitch, with an onset of the line within 50 ms. A wrong length
    /// never speaks against it.
    double score = 0;
    /// The pitch heard instead, where the claim is not supported and another pitch is likelier.
    std::optional<int> suggestedMidi;
    friend bool operator==(const ClaimAnswer&, const ClaimAnswer&) = default;
};

} // namespace earwright
