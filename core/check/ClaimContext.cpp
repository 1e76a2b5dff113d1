#include "core/check/ClaimContext.h"

#include "core/check/ClaimColour.h"
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

/// Notes struck together are heard as those of any line: a colour that was learned from single notes speaks
/// for one of them against the other.
void hearTogether(const PassageEvidence& evidence, const ViewBlend& blend, const std::vector<Claim>& claims,
                  std::vector<PitchRow>& own) {
    std::vector<std::size_t> members;
    std::vector<Range<Seconds>> spans;
    for (std::size_t i = 0; i < claims.size(); ++i) {
        if (!claims[i].isStruckTogether) continue;
        members.push_back(i);
        spans.push_back(claims[i].range);
    }
    if (members.empty()) return;
    const std::vector<PitchRow> rows = blend.spans(evidence, spans);
    for (std::size_t k = 0; k < members.size(); ++k)
        own[members[k]] = rows[k];
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

void ClaimContext::take(std::size_t claim, const ClaimContext& elsewhere, std::size_t there) {
    claims[claim] = elsewhere.claims[there];
    own[claim] = elsewhere.own[there];
    withNeighbours[claim] = elsewhere.withNeighbours[there];
    before[claim] = elsewhere.before[there];
    renewals[claim] = elsewhere.renewals[there];
}

ClaimContext contextOf(const PassageEvidence& evidence, std::vector<Claim> claims,
                       const std::optional<LineColour>& known) {
    // The view that bears out the claims as a whole is the one to check each of them in; without claims all
    // are alike, and both sides together are listened to.
    const ClaimViews heard = hearClaims(evidence, claims);
    ViewBlend blend(heard.sureness);
    // Whether a pitch sounded before is heard well enough in one view.
    const std::vector<Range<Seconds>> earlier = spansBefore(claims);
    HearingAhead before = evidence.hearAhead(blend.clearest(), earlier);
    OnsetTrack onsets = blend.onsets(evidence);
    const LineColour colour = known ? *known : colourWhereClaimed(claims, evidence, blend, onsets);
    const PassageEvidence coloured = evidence.colouredBy(colour);
    std::vector<PitchRow> own = blend.spans(coloured, spansOf(claims));
    hearTogether(evidence, blend, claims, own);
    before.finish();
    std::vector<PitchRow> soundingBefore = coloured.spans(blend.clearest(), earlier);
    std::vector<PitchRow> withNeighbours =
        amongNeighbours(joinedWithOnsets(own, spansOf(claims), onsets), claims);
    std::vector<Renewal> renewals = renewalsOf(evidence, claims, onsets);
    return {std::move(claims),         std::move(blend),  std::move(own), std::move(withNeighbours),
            std::move(soundingBefore), std::move(onsets), colour,         std::move(renewals)};
}

} // namespace earwright
