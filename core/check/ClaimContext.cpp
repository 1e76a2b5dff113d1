#include "core/check/ClaimContext.h"

#include "core/check/ClaimViews.h"
#include "core/check/MistakePrior.h"
#include "core/listening/JoinedEvidence.h"
#include "core/listening/MelodyPrior.h"

#include <algorithm>
#include <utility>

namespace earwright {

namespace {

std::vector<Range<Seconds>> spansOf(const std::vector<Claim>& claims) {
    std::vector<Range<Seconds>> spans;
    for (const Claim& claim : claims)
        spans.push_back(claim.range);
    return spans;
}

/// Notes come up to 40 ms earlier or later than they are written; their own attack is left out.
std::vector<Range<Seconds>> spansBefore(const std::vector<Claim>& claims) {
    constexpr Seconds from{0.115};
    constexpr Seconds to{0.045};
    std::vector<Range<Seconds>> spans;
    for (const Claim& claim : claims)
        spans.push_back({claim.range.begin - from, claim.range.begin - to});
    return spans;
}

/// The probability of each pitch in the line as a whole, given all that is heard and written.
std::vector<PitchRow> amongNeighbours(std::vector<PitchRow> own, const std::vector<Claim>& claims) {
    for (std::size_t i = 0; i < claims.size(); ++i) {
        const PitchRow guess = playedWhereWritten(claims[i].midi);
        for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
            own[i][pitch] += guess[pitch];
    }
    std::vector<PitchRow> rows = neighbourEvidence(own, spansOf(claims), SpanOf::Claim);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
            rows[i][pitch] += own[i][pitch];
        rows[i].normalise();
    }
    return rows;
}

} // namespace

ClaimContext contextOf(const PassageEvidence& evidence, std::vector<Claim> claims) {
    // The view that bears out the claims as a whole is the one to check each of them in; without claims all
    // are alike, and both sides together are listened to.
    const ClaimViews heard = hearClaims(evidence, claims);
    ViewBlend blend(heard.sureness);
    std::vector<PitchRow> own = blend.spans(heard.rows);
    // Whether a pitch sounded before is heard well enough in one view.
    std::vector<PitchRow> before = evidence.spans(blend.clearest(), spansBefore(claims));
    OnsetTrack onsets = blend.onsets(evidence);
    std::vector<PitchRow> withNeighbours =
        amongNeighbours(joinedWithOnsets(own, spansOf(claims), onsets), claims);
    return {std::move(claims),         std::move(blend),  std::move(own),
            std::move(withNeighbours), std::move(before), std::move(onsets)};
}

} // namespace earwright
