// Which part of the stereo picture is heard: both channels of the record weighed for both ears.
#pragma once

#include "core/engine/Engine.h"
#include "core/engine/Slew.h"
#include "core/time/SampleRate.h"

#include <array>

namespace earwright {

/// Threads: the callback.
/// Real time: everything. A change of focus moves over 10 ms, so that it never clicks.
class FocusMatrix {
public:
    void setRate(SampleRate rate);
    void aim(Focus focus);
    /// Puts one frame of the record in focus.
    void apply(float& left, float& right);

private:
    /// Left to left, right to left, left to right, right to right.
    std::array<Slew, 4> weights{Slew(1), Slew(0), Slew(0), Slew(1)};
};

} // namespace earwright
