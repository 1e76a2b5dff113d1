// A run of claims that are no good where they stand and would all be right in one other way.
#pragma once

#include "core/check/Claim.h"
#include "core/check/ClaimContext.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace earwright {

/// Claims one after another whose pitches begin as much later or earlier together, or begin an octave away at
/// their own places. Moved, they may stand among the notes that come before or after them.
struct OffRun {
    /// Their places among all claims, rising.
    std::vector<std::size_t> claims;
    /// How much later, in the middle; earlier is negative.
    Seconds later{0};
    int semitones = 0;
    /// Where each of them begins.
    std::vector<Seconds> begins;
};

/// Whether the claims of a run that are not supported as they stand are enough: three or more, of three
/// pitches where they are moved; of fewer than five half are contradicted and all begin within 45 ms of the
/// distance in the middle.
bool isConvincing(const OffRun& run, const std::vector<Claim>& laid, const std::vector<ClaimAnswer>& answers);

/// The run of doubtful claims that the onsets speak most for, if one is convincing. Moved by 90 ms to a
/// little more than a second, nearly all of their pitches begin within 60 ms of the same distance, at least
/// three of them; or within 90 ms, at least five of them, since swung eighths that are moved by one lie so.
/// Right notes among them are at most half as many. An onset by which another claim is supported does not
/// count. What is laid back or swings is supported where it is (besideItsPlace, swingIn), and in no run.
/// `laid`: the claims as they are written, or as the swing lays them; `answers` as they stand alone;
/// `barred`: claims that are in no run. Listens to nothing. Requires: all as many as the context's claims.
std::optional<OffRun> offRunIn(const ClaimContext& context, const std::vector<Claim>& laid,
                               const std::vector<ClaimAnswer>& answers, const std::vector<bool>& barred);

} // namespace earwright
