// Tells from the times of the callbacks when the device has run dry.
#pragma once

#include <cstdint>

namespace earwright {

/// Systems seldom report it, so two signs are asked for. A callback that comes later than what the device has
/// room for may have left a gap; servers hold some more, so often it has not. Then the times tell: what it
/// hands over is heard later than the end of what was handed over before. Measured with PulseAudio behind
/// ALSA under load: without a gap these times join within 2 ms, however late the callback was.
///
/// Threads: restart() before the callbacks, called() by them. Real time: called() neither allocates nor
/// waits. Units: nanoseconds of the steady clock.
class GapWatch {
public:
    /// Less is no gap but the uncertainty of the times.
    static constexpr std::int64_t leastGap = 10'000'000;
    /// What follows within this is the same gap.
    static constexpr std::int64_t sameGap = 250'000'000;

    struct Call {
        std::int64_t now = 0;
        /// When its first frame leaves the device; 0 where the system does not tell.
        std::int64_t firstHeard = 0;
        /// How long what is handed over sounds.
        std::int64_t length = 0;
        /// The system reports that sound was missing before.
        bool ranDry = false;
    };

    /// A stream begins whose device has room for so much sound.
    void restart(double roomSeconds) {
        room = static_cast<std::int64_t>(roomSeconds * 1e9);
        before = {};
        lastGap = 0;
    }
    /// Requires: times above 0. True where it follows a gap that was not counted yet.
    bool called(const Call& call) {
        const bool isFirst = before.now == 0;
        const bool isLate = !isFirst && call.now - before.now > room;
        const bool timesAreKnown = call.firstHeard > 0 && before.firstHeard > 0;
        const bool joins = timesAreKnown && call.firstHeard - (before.firstHeard + before.length) < leastGap;
        before = call;
        const bool isGap = !isFirst && ((isLate && !joins) || call.ranDry);
        if (!isGap || (lastGap > 0 && call.now - lastGap < sameGap)) return false;
        lastGap = call.now;
        return true;
    }

private:
    std::int64_t room = 0;
    Call before;
    std::int64_t lastGap = 0;
};

} // namespace earwright
