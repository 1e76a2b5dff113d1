// How urgent a thread's work is to the system: sound first, what can wait last.
#pragma once

namespace earwright {

enum class Urgency {
    Device, ///< the callback, and what hands its frames to the sound server
    Ahead,  ///< what makes the frames that the callback will ask for next
    Usual,  ///< all else
    Patient ///< work nobody waits for: pictures of recordings, evidence, fingerprints
};

/// Asks the system to treat the calling thread so, and threads it starts from now on. Device is
/// real-time rounds (POSIX SCHED_RR), which most systems keep for users they trust with sound: where it is
/// refused, the thread stays as it is. Ahead is the same at the lowest of those priorities, so that it never
/// holds up the device; what runs so must wait whenever it has nothing to do. Patient is SCHED_BATCH with a
/// low nice value, always granted; a thread that was made patient cannot count on becoming usual again. False
/// where refused. Any thread.
bool setThreadUrgency(Urgency urgency);

} // namespace earwright
