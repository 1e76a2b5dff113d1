#include "core/check/StruckAgain.h"

#include "core/music/Pitch.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr Seconds own{0.050};

/// Whether any note of the line more likely than not begins at a claim.
bool beginsPlainly(const OnsetTrack& onsets, const Claim& claim) {
    constexpr float evens = -0.7f;
    if (onsets.isEmpty()) return false;
    const std::size_t first = onsets.nearest(claim.range.begin - own);
    const std::size_t last = onsets.nearest(claim.range.begin + own);
    for (std::size_t place = first; place <= last; ++place)
        if (onsets.anyOnset(place) > evens) return true;
    return false;
}

/// The next claim's beginning, those struck together with this one left out.
std::optional<Seconds> nextOnset(const std::vector<Claim>& claims, std::size_t claim) {
    constexpr Seconds together{0.010};
    for (std::size_t i = claim + 1; i < claims.size(); ++i)
        if (claims[i].range.begin - claims[claim].range.begin > together) return claims[i].range.begin;
    return std::nullopt;
}

} // namespace

double riseAbout(const PassageEvidence& evidence, int midi, Seconds time, std::optional<Seconds> before,
                 std::optional<Seconds> next) {
    // Notes come some 30 ms later than they are written.
    constexpr Seconds attack{0.030};
    Range<Seconds> search{time - own, time + own};
    if (before) search.begin = std::max(search.begin, std::min(*before + own, time));
    if (next) search.end = std::min(search.end, std::max(*next - attack, time));
    return evidence.riseOf(hertzOf(midi + evidence.tuning().centsAt(time) / 100), search);
}

std::optional<std::size_t> repeatedBy(const std::vector<Claim>& claims, std::size_t claim) {
    constexpr std::size_t reach = 4;
    constexpr Seconds longestGap{0.15};
    const Seconds begin = claims[claim].range.begin;
    for (std::size_t i = claim; i > claim - std::min(claim, reach); --i) {
        const Claim& earlier = claims[i - 1];
        if (earlier.midi == claims[claim].midi && begin - earlier.range.begin > own &&
            begin - earlier.range.end < longestGap)
            return i - 1;
    }
    return std::nullopt;
}

std::vector<std::optional<double>> risesOf(const PassageEvidence& evidence, const std::vector<Claim>& claims,
                                           const OnsetTrack& onsets) {
    std::vector<std::optional<double>> rises(claims.size());
    for (std::size_t i = 0; i < claims.size(); ++i) {
        const auto repeated = repeatedBy(claims, i);
        if (!repeated && beginsPlainly(onsets, claims[i])) continue;
        const auto before = repeated ? std::optional(claims[*repeated].range.begin) : std::nullopt;
        rises[i] = riseAbout(evidence, claims[i].midi, claims[i].range.begin, before, nextOnset(claims, i));
    }
    return rises;
}

} // namespace earwright
