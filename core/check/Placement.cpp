#include "core/check/Placement.h"

#include "core/listening/Median.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace earwright {

namespace {

constexpr Seconds least{0.030};
constexpr Seconds most{0.060};

/// From a claim to the middle of what begins of a pitch within 60 ms; nothing where it hardly does.
std::optional<Seconds> distanceFromOnset(const ClaimContext& context, std::size_t claim, std::size_t pitch) {
    constexpr double enough = 0.5;
    const OnsetTrack& onsets = context.onsets;
    if (onsets.isEmpty()) return std::nullopt;
    const Seconds begin = context.claims[claim].range.begin;
    double sum = 0;
    double moment = 0;
    for (std::size_t place = onsets.nearest(begin - most); place <= onsets.nearest(begin + most); ++place) {
        const double probability = std::exp(static_cast<double>(onsets[place][pitch]));
        sum += probability;
        moment += probability * (onsets.timeOf(place) - begin).value;
    }
    return sum < enough ? std::nullopt : std::optional(Seconds(std::abs(moment / sum)));
}

} // namespace

Seconds placementTolerance(const ClaimContext& context, const std::vector<Verdict>& verdicts) {
    constexpr std::size_t enoughClaims = 8;
    std::vector<double> distances;
    for (std::size_t i = 0; i < context.claims.size(); ++i)
        if (verdicts[i] == Verdict::Supported)
            if (const auto distance = distanceFromOnset(context, i, context.pitchIndex(i)))
                distances.push_back(distance->value);
    if (distances.size() < enoughClaims) return most;
    return std::clamp(Seconds(3 * medianOf(std::move(distances))), least, most);
}

bool beginsBeside(const ClaimContext& context, std::size_t claim, int midi, Seconds tolerance) {
    const auto distance = distanceFromOnset(context, claim, static_cast<std::size_t>(midi - lowestHeardMidi));
    return distance && *distance > tolerance;
}

} // namespace earwright
