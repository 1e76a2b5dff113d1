#include "core/check/StruckAgain.h"

#include "core/music/Pitch.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr Seconds own{0.050};
/// Notes come some 30 ms later than they are written.
constexpr Seconds attack{0.030};

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

/// A claim's place between the beginnings of the one it repeats and of the next, those struck together with
/// it left out; a second away where there is none.
Range<Seconds> between(const std::vector<Claim>& claims, std::size_t claim,
                       std::optional<std::size_t> repeated) {
    constexpr Seconds together{0.010};
    constexpr Seconds far{1};
    const Seconds time = claims[claim].range.begin;
    Range<Seconds> free{time - far, time + far};
    if (repeated) free.begin = claims[*repeated].range.begin;
    for (std::size_t i = claim + 1; i < claims.size(); ++i) {
        if (claims[i].range.begin - time <= together) continue;
        free.end = std::min(free.end, claims[i].range.begin);
        break;
    }
    return free;
}

double hertzAt(const PassageEvidence& evidence, int midi, Seconds time) {
    return hertzOf(midi + evidence.tuning().centsAt(time) / 100);
}

double riseAbout(const PassageEvidence& evidence, int midi, Seconds time, const Range<Seconds>& free) {
    const Range<Seconds> search{std::max(time - own, std::min(free.begin + own, time)),
                                std::min(time + own, std::max(free.end - attack, time))};
    return evidence.riseOf(hertzAt(evidence, midi, time), search);
}

constexpr double struckAbove = 0.55;

Renewal renewalOf(const PassageEvidence& evidence, const std::vector<Claim>& claims, std::size_t claim) {
    constexpr double flatBelow = 0.25;
    constexpr double hardlySinks = -4;
    const Seconds time = claims[claim].range.begin;
    const auto repeated = repeatedBy(claims, claim);
    const Range<Seconds> free = between(claims, claim, repeated);
    const double rise = riseAbout(evidence, claims[claim].midi, time, free);
    if (rise > struckAbove) return Renewal::Struck;
    if (rise > flatBelow || !repeated) return Renewal::Open;
    const Range<Seconds> within{free.begin + attack, free.end};
    const double sag = evidence.sagOf(hertzAt(evidence, claims[claim].midi, time), time, within);
    return sag > hardlySinks ? Renewal::SoundsOn : Renewal::Open;
}

} // namespace

bool isStruckAbout(const PassageEvidence& evidence, int midi, Seconds time, const Range<Seconds>& free) {
    return riseAbout(evidence, midi, time, free) > struckAbove;
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
