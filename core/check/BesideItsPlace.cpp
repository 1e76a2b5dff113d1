#include "core/check/BesideItsPlace.h"

#include "core/check/OffBeat.h"
#include "core/listening/Median.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// Shifted by more than this a note stands on another place of the grid more often than it is played with
/// style: a sixteenth at 150 to the minute, and half the step in which onsets are told.
constexpr Seconds farthest{0.105};
/// Closer than this it is judged at its place as well as there.
constexpr Seconds nearest{0.030};
/// Notes of quick lines follow one another in 40 ms.
constexpr Seconds leastGap{0.040};

/// Between the onsets of the claims before and after it, as much of the way to them as is said.
Range<Seconds> room(const ClaimContext& context, std::size_t claim, double share) {
    const Seconds own = context.claims[claim].range.begin;
    Range<Seconds> free{own - Seconds(1), own + Seconds(1)};
    for (const Claim& other : context.claims) {
        const Seconds apart = other.range.begin - own;
        if (apart < Seconds(0) - leastGap) free.begin = std::max(free.begin, own + apart * share);
        if (apart > leastGap) {
            free.end = own + apart * share;
            break;
        }
    }
    return free;
}

Range<Seconds> searched(const ClaimContext& context, std::size_t claim, bool swingKnown) {
    const Claim& own = context.claims[claim];
    if (own.evenPair && !swingKnown) {
        const Range<Seconds> free = room(context, claim, 1);
        const Range<Seconds> reach = swingReach(*own.evenPair);
        return {std::max(reach.begin, free.begin + leastGap), std::min(reach.end, free.end - leastGap)};
    }
    const Range<Seconds> free = room(context, claim, 0.5);
    // A note that is moved by more than it lasts is another note of a quick line.
    const Seconds reach = std::min(farthest, own.range.length());
    return {std::max(own.range.begin - reach, free.begin), std::min(own.range.begin + reach, free.end)};
}

/// A claim of this pitch, other than the one asked about, that may have been played so as well.
bool isAnothers(const ClaimContext& context, std::size_t claim, int midi, Seconds time) {
    for (std::size_t i = 0; i < context.claims.size(); ++i)
        if (i != claim && context.claims[i].midi == midi &&
            std::abs((context.claims[i].range.begin - time).value) < farthest.value)
            return true;
    return false;
}

/// Whether a pitch that nobody claims surely begins at the claim's place: then that one is meant, and what
/// follows it is not the claim played late.
bool anotherBegins(const ClaimContext& context, std::size_t claim, Seconds lag) {
    constexpr float surely = -0.7f;
    const Seconds place = context.claims[claim].range.begin + lag;
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch) {
        if (pitch == context.pitchIndex(claim)) continue;
        const auto found = context.onsets.strongest(pitch, {place - nearest, place + nearest});
        if (found && found->log > surely &&
            !isAnothers(context, claim, lowestHeardMidi + static_cast<int>(pitch), found->time))
            return true;
    }
    return false;
}

/// The place of the strongest onset of the claim's pitch, if it lies in a range. One that lies outside casts
/// its flank into it, and is sought a little farther.
std::optional<Seconds> strongestIn(const Range<Seconds>& range, const ClaimContext& context,
                                   std::size_t claim) {
    constexpr float least = -2.5f;
    constexpr Seconds flank{0.080};
    if (range.end <= range.begin) return std::nullopt;
    const auto found =
        context.onsets.strongest(context.pitchIndex(claim), {range.begin - flank, range.end + flank});
    if (!found || found->log <= least || !range.contains(found->time)) return std::nullopt;
    return isAnothers(context, claim, context.claims[claim].midi, found->time) ? std::nullopt
                                                                               : std::optional(found->time);
}

} // namespace

Seconds usualLag(const ClaimContext& context, const std::vector<std::size_t>& supported) {
    constexpr std::size_t enough = 4;
    constexpr Seconds own{0.050};
    std::vector<double> lags;
    for (const std::size_t claim : supported) {
        const Seconds begin = context.claims[claim].range.begin;
        if (const auto onset = strongestIn({begin - own, begin + own}, context, claim))
            lags.push_back((*onset - begin).value);
    }
    return lags.size() < enough ? Seconds(0) : Seconds(medianOf(lags));
}

std::optional<Range<Seconds>> besideItsPlace(const ClaimContext& context, std::size_t claim, bool swingKnown,
                                             Seconds lag) {
    const Range<Seconds>& own = context.claims[claim].range;
    const auto heard = strongestIn(searched(context, claim, swingKnown).shifted(lag), context, claim);
    if (!heard || anotherBegins(context, claim, lag)) return std::nullopt;
    const Seconds begins = *heard - lag;
    if (std::abs((begins - own.begin).value) < nearest.value) return std::nullopt;
    Range<Seconds> there = own.shifted(begins - own.begin);
    for (std::size_t i = claim + 1; i < context.claims.size(); ++i) {
        const Seconds next = context.claims[i].range.begin;
        // Struck together with it.
        if (next - own.begin <= leastGap) continue;
        there.end = std::min(there.end, std::max(next, there.begin + leastGap));
        break;
    }
    return there;
}

} // namespace earwright
