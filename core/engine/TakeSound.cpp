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

Frames TakeSound::read(Frames from, std::span<float> mono) {
    const Frames end = from + Frames(std::ssize(mono));
    if (end <= part.begin - edge || from >= part.end + edge) {
        std::fill(mono.begin(), mono.end(), 0.0f);
        return Frames(0);
    }
    const auto wide = static_cast<std::size_t>(file->channels());
    block.resize(mono.size() * wide);
    const Frames got = file->read(from, block);
    for (std::size_t i = 0; i < mono.size(); ++i)
        mono[i] = 0.5f * (block[i * wide] + block[i * wide + wide - 1]);
    if (from >= part.begin && end <= part.end) return got;
    for (std::size_t i = 0; i < mono.size(); ++i)
        mono[i] *= audibility(from + Frames(static_cast<std::int64_t>(i)));
    return got;
}

float TakeSound::audibility(Frames frame) const {
    const std::int64_t outside = std::max((part.begin - frame).value, (frame - part.end).value + 1);
    if (outside <= 0) return 1;
    const double share = static_cast<double>(outside) / static_cast<double>(edge.value);
    return share >= 1 ? 0.0f : static_cast<float>(0.5 + 0.5 * std::cos(M_PI * share));
}

} // namespace earwright
