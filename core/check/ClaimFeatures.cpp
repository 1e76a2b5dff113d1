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

float strongestOnset(const ClaimContext& context, std::size_t claim) {
    float strongest = leastLog;
    const std::size_t pitch = context.pitchIndex(claim);
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

/// Whether another claim of the same pitch accounts for an onset at a time.
bool accountedFor(const ClaimContext& context, std::size_t claim, Seconds time) {
    constexpr std::size_t neighbours = 4;
    const std::size_t first = claim - std::min(claim, neighbours);
    const std::size_t end = std::min(claim + neighbours + 1, context.claims.size());
    for (std::size_t other = first; other < end; ++other) {
        const Seconds apart = context.claims[other].range.begin - time;
        if (other != claim && context.claims[other].midi == context.claims[claim].midi &&
            std::abs(apart.value) < ownTolerance.value)
            return true;
    }
    return false;
}

float strongestElsewhere(const ClaimContext& context, std::size_t claim) {
    float strongest = leastLog;
    const std::size_t pitch = context.pitchIndex(claim);
    const auto visit = [&](std::size_t place) {
        if (context.onsets[place][pitch] > strongest &&
            !accountedFor(context, claim, context.onsets.timeOf(place)))
            strongest = context.onsets[place][pitch];
    };
    forPlaces(context.onsets, context.claims[claim].range.begin, -elsewhereTo, -elsewhereFrom, visit);
    forPlaces(context.onsets, context.claims[claim].range.begin, elsewhereFrom, elsewhereTo, visit);
    return strongest;
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
    std::vector<ClaimFeatures> rows;
    for (std::size_t i = 0; i < context.claims.size(); ++i) {
        const std::size_t pitch = context.pitchIndex(i);
        const float own = strongestOnset(context, i);
        const float elsewhere = strongestElsewhere(context, i);
        const auto length = static_cast<float>(context.claims[i].range.length().value);
        rows.push_back({context.withNeighbours[i].leadOf(pitch), context.own[i].leadOf(pitch), own,
                        anyOnset(context, i), std::clamp(own - elsewhere, -8.0f, 8.0f), std::log(length),
                        std::min(distanceFromNeighbours(context.claims, i), 20.0f) / 5,
                        std::max(context.withNeighbours[i][pitch], leastLog),
                        std::max(context.own[i][pitch], -12.0f)});
    }
    return rows;
}

} // namespace earwright
