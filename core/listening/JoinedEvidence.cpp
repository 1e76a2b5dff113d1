#include "core/listening/JoinedEvidence.h"

#include <algorithm>
#include <cassert>

namespace earwright {

namespace {

constexpr float onsetShare = 0.3f;
/// Two places, 20 ms: how far an onset may lie from the beginning of its span.
constexpr std::size_t onsetReach = 2;
constexpr float leastOnset = -9;

/// The strongest onset evidence for each pitch near a time.
PitchRow onsetNear(const OnsetTrack& onsets, Seconds time) {
    PitchRow strongest;
    strongest.log.fill(leastOnset);
    if (onsets.isEmpty()) return strongest;
    const std::size_t centre = onsets.nearest(time);
    const std::size_t last = std::min(centre + onsetReach, onsets.size() - 1);
    for (std::size_t place = centre - std::min(centre, onsetReach); place <= last; ++place)
        for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
            strongest[pitch] = std::max(strongest[pitch], onsets[place][pitch]);
    return strongest;
}

} // namespace

std::vector<PitchRow> joinedWithOnsets(const std::vector<PitchRow>& rows,
                                       const std::vector<Range<Seconds>>& spans, const OnsetTrack& onsets) {
    assert(rows.size() == spans.size());
    std::vector<PitchRow> joined(rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const PitchRow onset = onsetNear(onsets, spans[i].begin);
        for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
            joined[i][pitch] = spanShare * rows[i][pitch] + onsetShare * onset[pitch];
        joined[i].normalise();
    }
    return joined;
}

} // namespace earwright
