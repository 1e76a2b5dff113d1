#include "core/check/ClaimFeatures.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace earwright {

namespace {

/// In places of 10 ms: an onset within 50 ms is the claim's own (MIREX note tracking's tolerance); from 70
/// to 240 ms away it is another place where the note may really begin.
constexpr std::ptrdiff_t ownReach = 5;
constexpr std::ptrdiff_t elsewhereFrom = 7;
constexpr std::ptrdiff_t elsewhereTo = 24;
constexpr Seconds ownTolerance{0.050};
/// So far the flank of a strong onset reaches whose claim is written a little early.
constexpr Seconds flank{0.080};
constexpr float leastLog = -9;

/// Calls visit(place) for the track's places between two distances from a centre.
template <class Visit>
void forPlaces(const OnsetTrack& onsets, Seconds centre, std::ptrdiff_t from, std::ptrdiff_t to,
               Visit visit) {
    if (onsets.isEmpty()) return;
    const auto middle = static_cast<std::ptrdiff_t>(onsets.nearest(centre));
    const auto last = static_cast<std::ptrdiff_t>(onsets.size()) - 1;
    for (std::ptrdiff_t place = std::max<std::ptrdiff_t>(0, middle + from);
         place <= std::min(last, middle + to); ++place)
        visit(static_cast<std::size_t>(place));
}

/// The strongest onset of a pitch that is a claim's own.
float strongestOnset(const ClaimContext& context, std::size_t claim, std::size_t pitch) {
    float strongest = leastLog;
    forPlaces(context.onsets, context.claims[claim].range.begin, -ownReach, ownReach,
              [&](std::size_t place) { strongest = std::max(strongest, context.onsets[place][pitch]); });
    return strongest;
}

float anyOnset(const ClaimContext& context, std::size_t claim) {
    constexpr float least = -6;
    float strongest = least;
    forPlaces(context.onsets, context.claims[claim].range.begin, -ownReach, ownReach,
              [&](std::size_t place) { strongest = std::max(strongest, context.onsets.anyOnset(place)); });
    return strongest;
}

/// Whether another claim of a pitch lies about a time.
bool isClaimed(const ClaimContext& context, std::size_t except, std::size_t pitch, Seconds time,
               Seconds tolerance) {
    constexpr std::size_t neighbours = 4;
    const std::size_t first = except - std::min(except, neighbours);
    const std::size_t end = std::min(except + neighbours + 1, context.claims.size());
    for (std::size_t other = first; other < end; ++other) {
        const Seconds apart = context.claims[other].range.begin - time;
        if (other != except && context.pitchIndex(other) == pitch && std::abs(apart.value) < tolerance.value)
            return true;
    }
    return false;
}

/// The strongest onset of a pitch near a claim that is not the claim's own, nor accounted for by another one
/// that lies within a tolerance of it.
/// A trill, or another sign that moves the pitch, comes back to it while the claim lasts.
PlacedOnset strongestElsewhere(const ClaimContext& context, std::size_t claim, std::size_t pitch,
                               Seconds tolerance) {
    PlacedOnset strongest{leastLog, {}};
    const Claim& own = context.claims[claim];
    const auto visit = [&](std::size_t place) {
        const Seconds time = context.onsets.timeOf(place);
        if (own.isOrnamented && own.range.contains(time)) return;
        if (context.onsets[place][pitch] > strongest.log &&
            !isClaimed(context, claim, pitch, time, tolerance))
            strongest = {context.onsets[place][pitch], time};
    };
    const Seconds begin = own.range.begin;
    forPlaces(context.onsets, begin, -elsewhereTo, -elsewhereFrom, visit);
    forPlaces(context.onsets, begin, elsewhereFrom, elsewhereTo, visit);
    return strongest;
}

float leadOverElsewhere(const ClaimContext& context, std::size_t claim, std::size_t pitch,
                        Seconds tolerance = ownTolerance) {
    constexpr float farthest = 8;
    return std::clamp(strongestOnset(context, claim, pitch) -
                          strongestElsewhere(context, claim, pitch, tolerance).log,
                      -farthest, farthest);
}

constexpr float leastBefore = -6;

/// How probably a pitch sounded just before a claim.
float soundedBefore(const ClaimContext& context, std::size_t claim, std::size_t pitch) {
    return std::max(context.before[claim][pitch], leastBefore);
}

/// Whether an earlier claim of the same pitch ends so shortly before a claim that it may still ring there.
bool ringsFromAnotherClaim(const ClaimContext& context, std::size_t claim) {
    constexpr std::size_t reach = 4;
    constexpr Seconds ringing{0.3};
    const Seconds begin = context.claims[claim].range.begin;
    for (std::size_t i = claim - std::min(claim, reach); i < claim; ++i)
        if (context.pitchIndex(i) == context.pitchIndex(claim) &&
            begin - context.claims[i].range.end < ringing)
            return true;
    return false;
}

/// How probably a claim's pitch sounded just before it and no claim accounts for that.
float soundedUnclaimed(const ClaimContext& context, std::size_t claim) {
    return ringsFromAnotherClaim(context, claim) ? leastBefore
                                                 : soundedBefore(context, claim, context.pitchIndex(claim));
}

float logLength(const Claim& claim) {
    return std::log(static_cast<float>(claim.range.length().value));
}

/// Semitones from the middle of the five claims before and after.
float distanceFromNeighbours(const std::vector<Claim>& claims, std::size_t claim) {
    constexpr std::size_t reach = 5;
    constexpr float unknown = 4;
    std::vector<int> pitches;
    for (std::size_t i = claim - std::min(claim, reach); i < std::min(claim + reach + 1, claims.size()); ++i)
        if (i != claim) pitches.push_back(claims[i].midi);
    if (pitches.size() < 3) return unknown;
    std::sort(pitches.begin(), pitches.end());
    const std::size_t half = pitches.size() / 2;
    const auto median = pitches.size() % 2 == 1 ? static_cast<float>(pitches[half])
                                                : static_cast<float>(pitches[half - 1] + pitches[half]) / 2;
    return std::abs(static_cast<float>(claims[claim].midi) - median);
}

} // namespace

std::vector<ClaimFeatures> claimFeatures(const ClaimContext& context) {
    constexpr float farthest = 20;
    std::vector<ClaimFeatures> rows;
    for (std::size_t i = 0; i < context.claims.size(); ++i) {
        const std::size_t pitch = context.pitchIndex(i);
        const float length = logLength(context.claims[i]);
        rows.push_back({{context.withNeighbours[i].leadOf(pitch), context.own[i].leadOf(pitch),
                         std::max(context.withNeighbours[i][pitch], leastLog),
                         std::min(distanceFromNeighbours(context.claims, i), farthest) / 5, length,
                         strongestOnset(context, i, pitch)},
                        {anyOnset(context, i), leadOverElsewhere(context, i, pitch), length,
                         soundedUnclaimed(context, i)}});
    }
    return rows;
}

Suggestion suggestionFor(const ClaimContext& context, std::size_t claim) {
    constexpr Seconds sameOnset{0.060};
    const PitchRow& row = context.withNeighbours[claim];
    const Claim& written = context.claims[claim];
    std::size_t best = pitchCount;
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
        if (pitch != context.pitchIndex(claim) && (best == pitchCount || row[pitch] > row[best]) &&
            !isClaimed(context, claim, pitch, written.range.begin, sameOnset))
            best = pitch;
    return {lowestHeardMidi + static_cast<int>(best),
            {std::max(row[best], leastLog), row.leadOf(best), strongestOnset(context, claim, best),
             anyOnset(context, claim), leadOverElsewhere(context, claim, best),
             soundedBefore(context, claim, best), logLength(written),
             leadOverElsewhere(context, claim, context.pitchIndex(claim))}};
}

bool soundsOnFromBefore(const ClaimContext& context, std::size_t claim, int midi) {
    constexpr Seconds near{0.5};
    constexpr Seconds rest{0.040};
    constexpr double likelyNew = 0.5;
    const auto pitch = static_cast<std::size_t>(midi - lowestHeardMidi);
    const Seconds begin = context.claims[claim].range.begin;
    if (claim == 0 || context.pitchIndex(claim - 1) != pitch) return false;
    const Range<Seconds>& before = context.claims[claim - 1].range;
    if (begin - before.begin >= near || begin - before.end > rest) return false;
    float strongest = leastLog;
    forPlaces(context.onsets, begin, -ownReach, ownReach, [&](std::size_t place) {
        if (!isClaimed(context, claim, pitch, context.onsets.timeOf(place), ownTolerance))
            strongest = std::max(strongest, context.onsets[place][pitch]);
    });
    return std::exp(static_cast<double>(strongest)) < likelyNew;
}

bool isHeldFromBefore(const ClaimContext& context, std::size_t claim) {
    // Log probabilities: three in four that it sounded, and one in two.
    constexpr float surelySounded = -0.3f;
    constexpr float evens = -0.7f;
    return soundedUnclaimed(context, claim) > surelySounded && anyOnset(context, claim) < evens &&
           leadOverElsewhere(context, claim, context.pitchIndex(claim), flank) < evens;
}

bool beginsRatherElsewhere(const ClaimContext& context, std::size_t claim) {
    constexpr float evens = -0.7f;
    constexpr float clearly = -1.5f;
    return anyOnset(context, claim) < evens &&
           leadOverElsewhere(context, claim, context.pitchIndex(claim), flank) < clearly;
}

bool isOutOfPlace(const ClaimContext& context, std::size_t claim) {
    const Claim& own = context.claims[claim];
    if (own.isOrnamented || own.isGhosted) return false;
    const Renewal renewal = context.renewal(claim);
    if (renewal == Renewal::SoundsOn || renewal == Renewal::Struck) return renewal == Renewal::SoundsOn;
    return isHeldFromBefore(context, claim) || beginsRatherElsewhere(context, claim);
}

std::optional<Seconds> onsetElsewhere(const ClaimContext& context, std::size_t claim) {
    const std::size_t pitch = context.pitchIndex(claim);
    const PlacedOnset onset = strongestElsewhere(context, claim, pitch, flank);
    if (std::exp(onset.log) < 0.5f || onset.log < strongestOnset(context, claim, pitch)) return std::nullopt;
    return onset.time;
}

double onsetProbability(const ClaimContext& context, std::size_t claim) {
    return std::exp(static_cast<double>(anyOnset(context, claim)));
}

} // namespace earwright
