// Gains that move together, so that what they let through gives way to each other as CrossFade says.
#pragma once

#include "core/engine/CrossFade.h"

#include <array>
#include <cstddef>
#include <cstdint>

namespace earwright {

/// Threads: one at a time. Real time: everything.
/// Units: linear gains; frames.
template <std::size_t count>
class GainFade {
public:
    using Gains = std::array<float, count>;

    explicit GainFade(const Gains& start) : from(start), now(start), aim(start) {}
    /// A change takes this many frames.
    void setFrames(std::int64_t frames) { fadeFrames = frames; }
    /// Another aim in the midst of a change starts from where the gains are.
    void aimAt(const Gains& wanted) {
        if (wanted == aim) return;
        from = now;
        aim = wanted;
        done = 0;
        isMoving = true;
    }
    /// Of the next frame.
    const Gains& next() {
        if (!isMoving) return now;
        ++done;
        isMoving = done < fadeFrames;
        const auto in = static_cast<float>(
            isMoving ? fadeIn(static_cast<double>(done) / static_cast<double>(fadeFrames)) : 1.0);
        for (std::size_t i = 0; i < count; ++i)
            now[i] = from[i] + in * (aim[i] - from[i]);
        return now;
    }

private:
    Gains from;
    Gains now;
    Gains aim;
    std::int64_t done = 0;
    std::int64_t fadeFrames = 573;
    bool isMoving = false;
};

} // namespace earwright
