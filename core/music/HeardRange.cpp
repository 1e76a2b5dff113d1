#include "core/music/HeardRange.h"

#include "core/music/Pitch.h"

#include <algorithm>

namespace earwright {

std::optional<PitchRange> withinHearing(const PitchRange& range) {
    const PitchRange heard{std::max(range.lowestMidi, lowestMidi), std::min(range.highestMidi, highestMidi)};
    return isRange(heard) ? std::optional(heard) : std::nullopt;
}

} // namespace earwright
