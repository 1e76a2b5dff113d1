#include "core/engine/ThreadUrgency.h"

#include <pthread.h>
#include <sched.h>
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

namespace earwright {

namespace {

/// Above all usual threads, below those of the system and of sound servers.
constexpr int devicePriority = 5;
constexpr int aheadPriority = 1;
constexpr int patience = 10;

bool schedule(int policy, int priority) {
    sched_param wanted{};
    wanted.sched_priority = priority;
    return pthread_setschedparam(pthread_self(), policy, &wanted) == 0;
}

} // namespace

bool setThreadUrgency(Urgency urgency) {
    switch (urgency) {
    case Urgency::Device:
        return schedule(SCHED_RR, devicePriority);
    case Urgency::Ahead:
        return schedule(SCHED_RR, aheadPriority);
    case Urgency::Usual:
        return schedule(SCHED_OTHER, 0);
    case Urgency::Patient:
        // On Linux the nice value belongs to the thread.
        return schedule(SCHED_BATCH, 0) &&
               setpriority(PRIO_PROCESS, static_cast<id_t>(syscall(SYS_gettid)), patience) == 0;
    }
    return false;
}

} // namespace earwright
