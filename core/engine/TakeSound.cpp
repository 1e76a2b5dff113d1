#include "core/engine/TakeSound.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace earwright {

namespace {

/// Outside its part a take is faded out over this.
constexpr Seconds edgeSeconds(0.01);

} // namespace

TakeSound::TakeSound(std::shared_ptr<Recording> takes, const Range<Frames>& played)
    : file(std::move(takes)), part(played), edge(file->rate().frames(edgeSeconds)) {}

Frames TakeSound::read(Frames from, std::span<float> interleaved) {
    const auto wide = static_cast<std::size_t>(channels());
    const Frames end = from + Frames(static_cast<std::int64_t>(interleaved.size() / wide));
    if (end <= part.begin - edge || from >= part.end + edge) {
        std::fill(interleaved.begin(), interleaved.end(), 0.0f);
        return Frames(0);
    }
    const Frames got = file->read(from, interleaved);
    if (from >= part.begin && end <= part.end) return got;
    for (std::size_t i = 0; i < interleaved.size(); ++i)
        interleaved[i] *= audibility(from + Frames(static_cast<std::int64_t>(i / wide)));
    return got;
}

float TakeSound::audibility(Frames frame) const {
    const std::int64_t outside = std::max((part.begin - frame).value, (frame - part.end).value + 1);
    if (outside <= 0) return 1;
    const double share = static_cast<double>(outside) / static_cast<double>(edge.value);
    return share >= 1 ? 0.0f : static_cast<float>(0.5 + 0.5 * std::cos(M_PI * share));
}

} // namespace earwright
