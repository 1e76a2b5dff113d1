// A few frames of the input on their way from the callback to whoever keeps them.
#pragma once

#include "core/time/Frames.h"

#include <array>
#include <cstddef>
#include <cstdint>

namespace earwright {

struct InputBlock {
    static constexpr std::size_t mostFrames = 64;

    /// Stamp of the first frame. A jump from the end of the block before is sound that was lost.
    InputFrames first;
    /// Counts the streams: frames of two of them do not belong to one take.
    std::int64_t stream = 0;
    int rateHertz = 0;
    /// 1 or 2.
    int channels = 1;
    std::size_t frames = 0;
    /// Interleaved.
    std::array<float, 2 * mostFrames> samples{};

    /// A frame's channels in equal parts. Requires: frame < frames.
    float mono(std::size_t frame) const {
        const auto wide = static_cast<std::size_t>(channels);
        return 0.5f * (samples[frame * wide] + samples[frame * wide + wide - 1]);
    }
};

} // namespace earwright
