#include "core/check/ClaimColour.h"

#include "core/listening/ColourLearning.h"

#include <cstddef>

namespace earwright {

namespace {

/// Of a double stop one pitch would be taken for right, and the colour would learn to speak against the
/// other.
std::vector<Range<Seconds>> spansOfSingleNotes(const std::vector<Claim>& claims) {
    std::vector<Range<Seconds>> spans;
    for (const Claim& claim : claims)
        if (!claim.isStruckTogether) spans.push_back(claim.range);
    return spans;
}

} // namespace

std::vector<Claim> toldWhatIsStruckTogether(std::vector<Claim> claims) {
    constexpr Seconds together{0.040};
    for (std::size_t i = 1; i < claims.size(); ++i) {
        if (claims[i].range.begin - claims[i - 1].range.begin >= together) continue;
        claims[i - 1].isStruckTogether = true;
        claims[i].isStruckTogether = true;
    }
    return claims;
}

LineColour colourWhereClaimed(const std::vector<Claim>& claims, const PassageEvidence& evidence,
                              const ViewBlend& blend, const OnsetTrack& onsets) {
    const std::vector<Range<Seconds>> spans = spansOfSingleNotes(claims);
    return spans.empty() ? LineColour{} : colourOf(evidence, blend, onsets, spans, SpanOf::Claim);
}

} // namespace earwright
