#include "core/engine/TimeTags.h"

#include <cmath>

namespace earwright {

TimeTags::TimeTags(double start, double framesPerOutput, std::optional<Range<Frames>> loop,
                   std::int64_t firstPass)
    : from(start), step(framesPerOutput), pass(firstPass) {
    if (!loop || start >= static_cast<double>(loop->end.value)) return;
    loopStart = static_cast<double>(loop->begin.value);
    length = static_cast<double>(loop->length().value);
}

double TimeTags::placeAt(std::int64_t laneFrame) const {
    const double place = from + unrolledAt(laneFrame);
    if (!isLooped() || place < loopStart + length) return place;
    return loopStart + std::fmod(place - loopStart, length);
}

std::int64_t TimeTags::passAt(std::int64_t laneFrame) const {
    const double place = from + unrolledAt(laneFrame);
    if (!isLooped() || place < loopStart + length) return pass;
    return pass + static_cast<std::int64_t>((place - loopStart) / length);
}

std::int64_t TimeTags::laneFrameOf(double unrolled) const {
    return static_cast<std::int64_t>(std::ceil(unrolled / step));
}

double TimeTags::passEnd(std::int64_t passesOn) const {
    return loopStart + length - from + static_cast<double>(passesOn) * length;
}

} // namespace earwright
