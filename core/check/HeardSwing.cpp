#include "core/check/HeardSwing.h"

#include "core/check/OffBeat.h"
#include "core/listening/ViewBlend.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr float leastLog = -7;
/// An onset heard is one that is likelier than one in five at some place.
constexpr float heardAbove = -1.6f;

struct PlacedOnset {
    float log = leastLog;
    Seconds time;
};

PlacedOnset strongestAbout(const OnsetTrack& onsets, int midi, Seconds centre, Seconds reach) {
    PlacedOnset strongest{leastLog, centre};
    if (onsets.isEmpty()) return strongest;
    const auto pitch = static_cast<std::size_t>(midi - lowestHeardMidi);
    const std::size_t last = onsets.nearest(centre + reach);
    for (std::size_t place = onsets.nearest(centre - reach); place <= last; ++place)
        if (onsets[place][pitch] > strongest.log) strongest = {onsets[place][pitch], onsets.timeOf(place)};
    return strongest;
}

/// The onsets of the view that bears out the claims on the beat.
OnsetTrack onsetsOf(const PassageEvidence& evidence, const std::vector<Claim>& claims) {
    constexpr Seconds own{0.050};
    std::vector<double> sureness;
    for (std::size_t view = 0; view < evidence.viewCount(); ++view) {
        double sum = 0, count = 0;
        for (const Claim& claim : claims) {
            if (claim.evenPair) continue;
            sum += strongestAbout(evidence.onsets(view), claim.midi, claim.range.begin, own).log;
            ++count;
        }
        sureness.push_back(sum / std::max(count, 1.0));
    }
    return ViewBlend(std::move(sureness)).onsets(evidence);
}

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

/// Where the first claim at a place is heard to begin; the place itself where none is.
Seconds heardNear(const OnsetTrack& onsets, const std::vector<Claim>& claims, Seconds place) {
    constexpr double same = 0.001;
    constexpr Seconds own{0.050};
    for (const Claim& claim : claims) {
        if (std::abs((claim.range.begin - place).value) > same) continue;
        const PlacedOnset heard = strongestAbout(onsets, claim.midi, place, own);
        return heard.log > heardAbove ? heard.time : place;
    }
    return place;
}

/// The shares of the pairs whose second note is heard about a swing.
struct HeardShares {
    /// From onset to onset, so that neither the attack of an instrument nor a player who lags tells in them.
    std::vector<double> played;
    Seconds shortOnes;
};

HeardShares sharesAbout(double share, const OnsetTrack& onsets, const std::vector<Claim>& claims) {
    constexpr Seconds reach{0.060};
    HeardShares heard;
    for (const Claim& claim : claims) {
        if (!claim.evenPair) continue;
        const Range<Seconds>& pair = *claim.evenPair;
        const PlacedOnset second = strongestAbout(onsets, claim.midi, placeAt(pair, share), reach);
        if (second.log <= heardAbove) continue;
        const Seconds first = heardNear(onsets, claims, pair.begin);
        const Seconds next = heardNear(onsets, claims, pair.end);
        heard.played.push_back(ratio(second.time - first, next - first));
        heard.shortOnes += next - second.time;
    }
    return heard;
}

double meanOf(const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values)
        sum += value;
    return sum / static_cast<double>(values.size());
}

double ratioAt(double share) {
    const double kept = std::clamp(share, 0.05, 0.95);
    return kept / (1 - kept);
}

SwingFeel feelOf(const HeardShares& heard) {
    const auto count = static_cast<double>(heard.played.size());
    const double mean = meanOf(heard.played);
    double squares = 0;
    for (const double share : heard.played)
        squares += (share - mean) * (share - mean);
    const double deviation = std::sqrt(squares / (count - 1));
    return {ratioAt(mean), ratioAt(mean - deviation), ratioAt(mean + deviation),
            heard.shortOnes * (1 / count), static_cast<int>(heard.played.size())};
}

/// Moves what begins or ends in the middle of a pair to where the middle is played.
void moveMiddles(std::vector<Claim>& claims, const Range<Seconds>& pair, double share) {
    constexpr double same = 0.001;
    const Seconds written = placeAt(pair, 0.5), played = placeAt(pair, share);
    for (Claim& claim : claims) {
        if (claim.evenPair == pair) claim.range.begin = played;
        if (std::abs((claim.range.end - written).value) < same) claim.range.end = played;
    }
}

} // namespace

PairsHeard swingIn(const PassageEvidence& evidence, std::vector<Claim> claims) {
    // What is nearer to even than this is heard at its place.
    constexpr double leastShare = 0.54;
    const auto pairs = std::count_if(claims.begin(), claims.end(),
                                     [](const Claim& claim) { return claim.evenPair.has_value(); });
    if (pairs < Feel::leastPairs) return {std::move(claims)};
    const OnsetTrack onsets = onsetsOf(evidence, claims);
    const HeardShares heard = sharesAbout(likeliestShare(onsets, claims), onsets, claims);
    // Where most of the pairs are not heard so, they are not divided alike.
    if (std::ssize(heard.played) < std::max<std::ptrdiff_t>(Feel::leastPairs, (pairs + 1) / 2))
        return {std::move(claims)};
    const double share = meanOf(heard.played);
    if (share < leastShare) return {std::move(claims), true};
    const std::vector<Claim> written = claims;
    for (const Claim& claim : written)
        if (claim.evenPair) moveMiddles(claims, *claim.evenPair, share);
    return {std::move(claims), true, feelOf(heard)};
}

} // namespace earwright
