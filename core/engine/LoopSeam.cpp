#include "core/engine/LoopSeam.h"

namespace earwright {

std::int64_t LoopSeam::earlyAfter(std::int64_t pass, const PassSpeeds& speeds) const {
    const bool isTurn = speeds.isYoursTurn(pass) != speeds.isYoursTurn(pass + 1);
    const bool stops = speeds.manner().gapBeats > 0 || (isTurn && !takeSounds);
    return stops ? fadeFrames() : 2 * fadeFrames();
}

std::optional<std::int64_t> LoopSeam::nextChange(const PassSpeeds& speeds, double laneSpeed,
                                                 const Range<std::int64_t>& within) const {
    for (std::int64_t pass = places.passAt(within.begin);; ++pass) {
        const std::int64_t join = endOf(pass) - earlyAfter(pass, speeds);
        if (join >= within.end) return std::nullopt;
        if (join < within.begin) continue;
        if (speeds.manner().gapBeats > 0 || speeds.speedOf(pass + 1) != laneSpeed) return pass;
    }
}

} // namespace earwright
