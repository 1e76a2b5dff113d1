// Frames per second of a recording or a device, and the only way between frames and seconds.
#pragma once

#include "core/time/Frames.h"
#include "core/time/Seconds.h"

#include <cmath>

namespace earwright {

/// A sample rate in hertz. Recordings have 8,000 to 192,000.
struct SampleRate {
    int hertz = 44100;

    friend constexpr auto operator<=>(SampleRate, SampleRate) = default;

    /// The time at which a frame of a recording of this rate starts.
    constexpr Seconds seconds(Frames frames) const {
        return Seconds(static_cast<double>(frames.value) / static_cast<double>(hertz));
    }
    /// The frame nearest to a time in a recording of this rate; halves go away from zero.
    Frames frames(Seconds time) const {
        return Frames(std::llround(time.value * static_cast<double>(hertz)));
    }

    /// Output frames of a device of this rate that last as long as this many seconds of the listener's clock.
    OutputFrames outputFrames(double listenerSeconds) const {
        return OutputFrames(std::llround(listenerSeconds * static_cast<double>(hertz)));
    }
};

} // namespace earwright
