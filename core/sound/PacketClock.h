// Where the packets of a container stand on the time line of the sound in them.
#pragma once

#include "core/time/Frames.h"
#include "core/time/SampleRate.h"

#include <cstdint>

namespace earwright {

/// Turns a packet's time stamp into a frame, from the packet alone: so a packet stands at the same place
/// whether the file is read through or sought into.
///
/// Many containers stamp in whole milliseconds. Packets of equal lengths stand on a grid far wider than that,
/// so the frame is still known exactly; where packets differ too much for a grid, it is known to the tick.
/// Threads: a value.
class PacketClock {
public:
    struct Settings {
        SampleRate rate;
        /// A tick lasts tickNumerator ÷ tickDenominator seconds.
        std::int64_t tickNumerator = 1;
        std::int64_t tickDenominator = 1000;
        /// A tick and the frame that stands there.
        std::int64_t originTick = 0;
        Frames originFrame;
        /// Packets start at whole multiples of this many frames from the origin; 1 where nothing is known.
        Frames grid{1};
    };

    explicit PacketClock(const Settings& settings);

    Frames placeOf(std::int64_t tick) const;
    /// The last tick that is not after a frame.
    std::int64_t tickBefore(Frames place) const;
    /// How far a place may be off; zero where every frame has its own tick.
    Frames tolerance() const { return loose; }

private:
    Settings given;
    double framesPerTick;
    Frames loose;
};

} // namespace earwright
