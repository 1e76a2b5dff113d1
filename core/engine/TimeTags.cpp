#include "core/engine/TimeTags.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// Of an output frame: what a division may be off by where it should come out whole.
constexpr double exactly = 1e-6;

} // namespace

TimeTags::TimeTags(double start, double framesPerOutput, std::optional<Range<Frames>> loop,
                   std::int64_t firstPass, std::int64_t lead)
    : from(start), step(framesPerOutput), pass(firstPass), leadFrames(lead) {
    if (!loop || start >= static_cast<double>(loop->end.value)) return;
    loopStart = static_cast<double>(loop->begin.value);
    length = static_cast<double>(loop->length().value);
}

TimeTags TimeTags::inFramesOf(double zero, double perFrame, std::int64_t earlier) const {
    TimeTags line = *this;
    line.from = (from - static_cast<double>(earlier) * step - zero) / perFrame;
    line.step = step / perFrame;
    line.loopStart = (loopStart - zero) / perFrame;
    line.length = length / perFrame;
    line.pass = 0;
    line.leadFrames = 0;
    return line;
}

/// Loops ended by a place, unrolled: a frame that should be the first of a pass is, whatever was rounded.
double TimeTags::loopsEndedAt(double place) const {
    const double into = place - loopStart + exactly * (1 + step);
    return isLooped() && into >= length ? std::floor(into / length) : 0.0;
}

double TimeTags::placeAt(std::int64_t laneFrame) const {
    const double place = from + unrolledAt(laneFrame);
    const double loops = loopsEndedAt(place);
    return loops > 0 ? std::max(loopStart, place - loops * length) : place;
}

std::int64_t TimeTags::passAt(std::int64_t laneFrame) const {
    return pass + static_cast<std::int64_t>(loopsEndedAt(from + unrolledAt(laneFrame)));
}

std::int64_t TimeTags::laneFrameOf(double unrolled) const {
    return leadFrames + static_cast<std::int64_t>(std::ceil(unrolled / step - exactly));
}

double TimeTags::passEnd(std::int64_t passesOn) const {
    return loopStart + length - from + static_cast<double>(passesOn) * length;
}

std::int64_t TimeTags::passesEndedBy(double unrolled) const {
    const double beyond = unrolled - passEnd(0);
    return beyond < 0 ? 0 : 1 + static_cast<std::int64_t>(beyond / length);
}

} // namespace earwright
