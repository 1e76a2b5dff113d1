#include "core/check/LineOnsets.h"

#include "core/listening/Median.h"
#include "core/listening/ViewBlend.h"

#include <algorithm>
#include <utility>

namespace earwright {

namespace {

constexpr Seconds own{0.050};

} // namespace

PlacedOnset strongestAbout(const OnsetTrack& onsets, int midi, Seconds centre, Seconds reach) {
    constexpr float leastLog = -7;
    const auto pitch = static_cast<std::size_t>(midi - lowestHeardMidi);
    const auto strongest = onsets.strongest(pitch, {centre - reach, centre + reach});
    return strongest && strongest->log > leastLog ? *strongest : PlacedOnset{leastLog, centre};
}

OnsetTrack lineOnsets(const PassageEvidence& evidence, const std::vector<Claim>& claims) {
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

Seconds usualLagOf(const OnsetTrack& onsets, const std::vector<Claim>& claims) {
    constexpr std::size_t enough = 4;
    std::vector<double> lags;
    for (const Claim& claim : claims) {
        if (claim.evenPair) continue;
        const PlacedOnset heard = strongestAbout(onsets, claim.midi, claim.range.begin, own);
        if (heard.log > onsetHeardAbove) lags.push_back((heard.time - claim.range.begin).value);
    }
    return lags.size() < enough ? Seconds(0) : Seconds(medianOf(std::move(lags)));
}

} // namespace earwright
