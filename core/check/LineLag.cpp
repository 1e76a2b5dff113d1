#include "core/check/LineLag.h"

#include "core/listening/Median.h"
#include "core/listening/OnsetTrack.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace earwright {

namespace {

constexpr Seconds farthest{0.090};
constexpr Seconds least{0.025};

constexpr float evens = -0.7f;

/// A clear onset shows over several places; the middle of them is the best guess.
Seconds middleOf(const OnsetTrack& onsets, std::size_t place, std::size_t pitch) {
    std::size_t first = place, last = place;
    while (first > 0 && onsets[first - 1][pitch] > evens)
        --first;
    while (last + 1 < onsets.size() && onsets[last + 1][pitch] > evens)
        ++last;
    return (onsets.timeOf(first) + onsets.timeOf(last)) * 0.5;
}

/// Where a claim's pitch begins nearby more likely than not, in the view that hears it best.
std::optional<Seconds> heardAt(const PassageEvidence& evidence, const Claim& claim) {
    const auto pitch = static_cast<std::size_t>(claim.midi - lowestHeardMidi);
    const Range<Seconds> around{claim.range.begin - farthest, claim.range.begin + farthest};
    float best = evens;
    std::optional<Seconds> time;
    for (std::size_t view = 0; view < evidence.viewCount(); ++view) {
        const OnsetTrack& onsets = evidence.onsets(view);
        const auto found = onsets.strongest(pitch, around);
        if (!found || found->log <= best) continue;
        best = found->log;
        time = middleOf(onsets, onsets.nearest(found->time), pitch);
    }
    return time && around.contains(*time) ? time : std::nullopt;
}

} // namespace

Seconds lineLag(const PassageEvidence& evidence, const std::vector<Claim>& claims) {
    constexpr std::size_t enough = 5;
    constexpr Seconds agreeing{0.025};
    std::vector<double> lags;
    for (const Claim& claim : claims)
        if (const auto heard = heardAt(evidence, claim)) lags.push_back((*heard - claim.range.begin).value);
    if (lags.size() < enough || 2 * lags.size() < claims.size()) return Seconds(0);
    const double middle = medianOf(lags);
    const auto agree =
        std::ranges::count_if(lags, [middle](double lag) { return std::abs(lag - middle) < agreeing.value; });
    const bool isCommon = 3 * static_cast<std::size_t>(agree) >= 2 * lags.size();
    return isCommon && std::abs(middle) >= least.value ? Seconds(middle) : Seconds(0);
}

} // namespace earwright
