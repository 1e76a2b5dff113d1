#include "core/check/HeardSwing.h"

#include "core/check/LineOnsets.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <utility>

namespace earwright {

namespace {

Seconds placeAt(const Range<Seconds>& pair, double share) {
    return pair.begin + pair.length() * share;
}

/// How well the second ones are heard where a swing puts them.
double supportAt(double share, const OnsetTrack& onsets, const std::vector<Claim>& claims) {
    constexpr Seconds reach{0.025};
    double sum = 0, count = 0;
    for (const Claim& claim : claims) {
        if (!claim.evenPair) continue;
        sum += strongestAbout(onsets, claim.midi, placeAt(*claim.evenPair, share), reach).log;
        ++count;
    }
    return sum / std::max(count, 1.0);
}

double likeliestShare(const OnsetTrack& onsets, const std::vector<Claim>& claims) {
    constexpr double step = 0.01, most = 0.8;
    double best = 0.5, support = supportAt(0.5, onsets, claims);
    for (double share = 0.5 + step; share <= most + step / 2; share += step)
        if (const double there = supportAt(share, onsets, claims); there > support) {
            best = share;
            support = there;
        }
    return best;
}

/// Where the first claim at a place is heard to begin; where none is, as far behind it as others are.
Seconds heardNear(const OnsetTrack& onsets, const std::vector<Claim>& claims, Seconds place, Seconds own,
                  Seconds lag) {
    constexpr double same = 0.001;
    for (const Claim& claim : claims) {
        if (std::abs((claim.range.begin - place).value) > same) continue;
        const PlacedOnset heard = strongestAbout(onsets, claim.midi, place, own);
        return heard.log > onsetHeardAbove ? heard.time : place + lag;
    }
    return place + lag;
}

/// The shares of the pairs whose second note is heard about a swing, from onset to onset; where nothing is
/// heard on a beat, from or to its place.
struct HeardShares {
    /// By which notes are judged: where they sound.
    std::vector<double> placed;
    /// As they are felt: a place where nothing is heard lies as far behind as others are heard, so that
    /// neither the attack of an instrument nor a player who lags tells in them.
    std::vector<double> felt;
    Seconds shortOnes;
};

HeardShares sharesAbout(double share, const OnsetTrack& onsets, const std::vector<Claim>& claims) {
    constexpr Seconds reach{0.060}, ownReach{0.050};
    const Seconds lag = usualLagOf(onsets, claims);
    HeardShares heard;
    for (const Claim& claim : claims) {
        if (!claim.evenPair) continue;
        const Range<Seconds>& pair = *claim.evenPair;
        // In a quick pair less far, so that its three onsets stay in order.
        const Seconds quarter = pair.length() * 0.25;
        const PlacedOnset second =
            strongestAbout(onsets, claim.midi, placeAt(pair, share), std::min(reach, quarter));
        if (second.log <= onsetHeardAbove) continue;
        const auto around = [&](Seconds behind) {
            const Seconds own = std::min(ownReach, quarter);
            return Range{heardNear(onsets, claims, pair.begin, own, behind),
                         heardNear(onsets, claims, pair.end, own, behind)};
        };
        const Range<Seconds> placed = around(Seconds(0)), felt = around(lag);
        if (second.time <= std::max(placed.begin, felt.begin)) continue;
        if (second.time >= std::min(placed.end, felt.end)) continue;
        heard.placed.push_back(ratio(second.time - placed.begin, placed.length()));
        heard.felt.push_back(ratio(second.time - felt.begin, felt.length()));
        heard.shortOnes += felt.end - second.time;
    }
    return heard;
}

double meanOf(const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values)
        sum += value;
    return sum / static_cast<double>(values.size());
}

/// Moves what begins or ends in the middle of a pair to where the middle is played; what ends within the
/// second half keeps its share of it.
void moveMiddles(std::vector<Claim>& claims, const Range<Seconds>& pair, double share) {
    constexpr double same = 0.001;
    const Seconds written = placeAt(pair, 0.5), played = placeAt(pair, share);
    const double kept = ratio(pair.end - played, pair.end - written);
    for (Claim& claim : claims) {
        if (claim.evenPair == pair) {
            if (claim.range.end < pair.end) claim.range.end = pair.end - (pair.end - claim.range.end) * kept;
            claim.range.begin = played;
        } else if (std::abs((claim.range.end - written).value) < same) {
            claim.range.end = played;
        }
    }
}

} // namespace

PairsHeard swingIn(const PassageEvidence& evidence, std::vector<Claim> claims) {
    // What is nearer to even than this is heard at its place.
    constexpr double leastShare = 0.54;
    const auto pairs = std::count_if(claims.begin(), claims.end(),
                                     [](const Claim& claim) { return claim.evenPair.has_value(); });
    if (pairs < Feel::leastPairs) return {std::move(claims)};
    const OnsetTrack onsets = lineOnsets(evidence, claims);
    const HeardShares heard = sharesAbout(likeliestShare(onsets, claims), onsets, claims);
    // Where most of the pairs are not heard so, they are not divided alike.
    if (std::ssize(heard.placed) < std::max<std::ptrdiff_t>(Feel::leastPairs, (pairs + 1) / 2))
        return {std::move(claims)};
    const double share = meanOf(heard.placed);
    if (share < leastShare) return {std::move(claims), true};
    std::vector<Range<Seconds>> moved;
    for (const Claim& claim : claims)
        if (claim.evenPair && (moved.empty() || moved.back() != *claim.evenPair))
            moved.push_back(*claim.evenPair);
    for (const Range<Seconds>& pair : moved)
        moveMiddles(claims, pair, share);
    PairsHeard swung{std::move(claims), true};
    if (meanOf(heard.felt) >= leastShare) swung.swing = swingOf(heard.felt, heard.shortOnes);
    return swung;
}

} // namespace earwright
