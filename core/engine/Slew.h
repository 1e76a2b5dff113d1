// A gain that moves to its aim without a click.
#pragma once

#include <algorithm>

namespace earwright {

/// Moves by at most one step a frame. Real time safe.
class Slew {
public:
    explicit Slew(float start = 0) : now(start), aim(start) {}
    void aimAt(float value) { aim = value; }
    /// A change of 1 takes this many frames.
    void setFrames(float frames) { step = 1.0f / frames; }
    float value() const { return now; }
    float next() {
        now += std::clamp(aim - now, -step, step);
        return now;
    }

private:
    float now;
    float aim;
    float step = 1.0f / 480;
};

} // namespace earwright
