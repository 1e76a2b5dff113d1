// A gain that moves to its aim without a click.
#pragma once

#include <algorithm>

namespace earwright {

/// Moves by at most one step a frame, which may be another one down than up. Real time safe.
class Slew {
public:
    explicit Slew(float start = 0) : now(start), aim(start) {}
    void aimAt(float value) { aim = value; }
    /// A change of 1 takes this many frames.
    void setFrames(float frames) { setFrames(frames, frames); }
    void setFrames(float framesDown, float framesUp) {
        down = 1.0f / framesDown;
        up = 1.0f / framesUp;
    }
    float value() const { return now; }
    float next() {
        now += std::clamp(aim - now, -down, up);
        return now;
    }

private:
    float now;
    float aim;
    float down = 1.0f / 480;
    float up = 1.0f / 480;
};

} // namespace earwright
