#include "core/check/ClaimContext.h"

#include "core/check/MistakePrior.h"
#include "core/listening/JoinedEvidence.h"
#include "core/listening/MelodyPrior.h"

#include <algorithm>

namespace earwright {

namespace {

/// A claim a view cannot hear at all must not decide the choice of the view alone.
constexpr float leastSureness = -4;

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

std::size_t indexOf(const Claim& claim) {
    return static_cast<std::size_t>(claim.midi - lowestHeardMidi);
}

std::vector<std::vector<PitchRow>> allViews(const PassageEvidence& evidence,
                                            const std::vector<Range<Seconds>>& spans) {
    std::vector<std::vector<PitchRow>> views;
    for (std::size_t view = 0; view < evidence.viewCount(); ++view)
        views.push_back(evidence.spans(view, spans));
    return views;
}

/// The view that bears out the claims as a whole is the one to check each of them in; without claims all
/// are alike, and both sides together are listened to.
ViewBlend blendFor(const std::vector<std::vector<PitchRow>>& views, const std::vector<Claim>& claims) {
    std::vector<double> sureness;
    for (const auto& rows : views) {
        double sum = 0;
        for (std::size_t i = 0; i < claims.size(); ++i)
            sum += std::max(rows[i][indexOf(claims[i])], leastSureness);
        sureness.push_back(sum / static_cast<double>(std::max<std::size_t>(claims.size(), 1)));
    }
    return ViewBlend(sureness);
}

/// The probability of each pitch in the line as a whole, given all that is heard and written.
std::vector<PitchRow> amongNeighbours(std::vector<PitchRow> own, const std::vector<Claim>& claims) {
    for (std::size_t i = 0; i < claims.size(); ++i) {
        const PitchRow guess = playedWhereWritten(claims[i].midi);
        for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
            own[i][pitch] += guess[pitch];
    }
    std::vector<PitchRow> rows = neighbourEvidence(own, spansOf(claims));
    for (std::size_t i = 0; i < rows.size(); ++i) {
        for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
            rows[i][pitch] += own[i][pitch];
        rows[i].normalise();
    }
    return rows;
}

} // namespace

ClaimContext contextOf(const PassageEvidence& evidence, std::vector<Claim> claims) {
    const std::vector<std::vector<PitchRow>> views = allViews(evidence, spansOf(claims));
    ViewBlend blend = blendFor(views, claims);
    std::vector<PitchRow> own = blend.spans(views);
    std::vector<PitchRow> before = blend.spans(evidence, spansBefore(claims));
    OnsetTrack onsets = blend.onsets(evidence);
    std::vector<PitchRow> withNeighbours =
        amongNeighbours(joinedWithOnsets(own, spansOf(claims), onsets), claims);
    return {std::move(claims),         std::move(blend),  std::move(own),
            std::move(withNeighbours), std::move(before), std::move(onsets)};
}

} // namespace earwright
