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

double hertzAt(const PassageEvidence& evidence, int midi, Seconds time) {
    return hertzOf(midi + evidence.tuning().centsAt(time) / 100);
}

double riseAbout(const PassageEvidence& evidence, int midi, Seconds time, std::optional<Seconds> before,
                 std::optional<Seconds> next) {
    // Notes come some 30 ms later than they are written.
    constexpr Seconds attack{0.030};
    Range<Seconds> search{time - own, time + own};
    if (before) search.begin = std::max(search.begin, std::min(*before + own, time));
    if (next) search.end = std::min(search.end, std::max(*next - attack, time));
    return evidence.riseOf(hertzAt(evidence, midi, time), search);
}

constexpr double struckAbove = 0.55;

Renewal renewalOf(const PassageEvidence& evidence, const std::vector<Claim>& claims, std::size_t claim) {
    constexpr double flatBelow = 0.25;
    constexpr double hardlySinks = -4;
    const Seconds time = claims[claim].range.begin;
    const auto repeated = repeatedBy(claims, claim);
    const auto before = repeated ? std::optional(claims[*repeated].range.begin) : std::nullopt;
    const auto next = nextOnset(claims, claim);
    const double rise = riseAbout(evidence, claims[claim].midi, time, before, next);
    if (rise > struckAbove) return Renewal::Struck;
    if (rise > flatBelow || !before) return Renewal::Open;
    const Range<Seconds> within{*before + Seconds(0.03), next.value_or(time + Seconds(1))};
    const double sag = evidence.sagOf(hertzAt(evidence, claims[claim].midi, time), time, within);
    return sag > hardlySinks ? Renewal::SoundsOn : Renewal::Open;
}

} // namespace

bool isStruckAbout(const PassageEvidence& evidence, int midi, Seconds time, std::optional<Seconds> before,
                   std::optional<Seconds> next) {
    return riseAbout(evidence, midi, time, before, next) > struckAbove;
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

std::vector<Renewal> renewalsOf(const PassageEvidence& evidence, const std::vector<Claim>& claims,
                                const OnsetTrack& onsets) {
    std::vector<Renewal> renewals(claims.size(), Renewal::NotAsked);
    for (std::size_t i = 0; i < claims.size(); ++i)
        if (repeatedBy(claims, i) || !beginsPlainly(onsets, claims[i]))
            renewals[i] = renewalOf(evidence, claims, i);
    return renewals;
}

} // namespace earwright
