// Tells from the times of the callbacks when the device has run dry.
#pragma once

#include <cstdint>

namespace earwright {

/// Systems seldom report it: a callback that comes later than all that was waiting in the device could last
/// has left a gap. PortAudio fills the device each time it wakes up, so what waits then is all it has room
/// for.
///
/// Threads: restart() before the callbacks, called() by them. Real time: called() neither allocates nor
/// waits.
class GapWatch {
public:
    /// A stream begins whose device has room for so much sound.
    void restart(double roomSeconds) {
        roomNanoseconds = static_cast<std::int64_t>(roomSeconds * 1e9);
        last = 0;
    }
    /// A callback, at a time above 0. True where it follows a gap: it is late, or the system says so.
    bool called(std::int64_t nowNanoseconds, bool systemSaysSo) {
        const bool isLate = last > 0 && nowNanoseconds - last > roomNanoseconds;
        const bool isFirst = last == 0;
        last = nowNanoseconds;
        return isLate || (systemSaysSo && !isFirst);
    }

private:
    std::int64_t roomNanoseconds = 0;
    std::int64_t last = 0;
};

} // namespace earwright
