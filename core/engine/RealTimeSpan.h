// Marks code that has to run in real time, for the test build in which that is proved.
#pragma once

#ifdef EARWRIGHT_REALTIME_CHECK
// The run time of clang's RealtimeSanitizer (compiler-rt, rtsan.h), linked to a program of any compiler.
extern "C" {
void __rtsan_init();
void __rtsan_realtime_enter();
void __rtsan_realtime_exit();
}
#endif

namespace earwright {

/// While one of these lives, its thread may not allocate, lock or block: in a build with
/// EARWRIGHT_SANITIZE=realtime the program ends there with a report. In any other build it is nothing.
///
/// Threads: any, each for itself. Real time: everything.
class RealTimeSpan {
public:
#ifdef EARWRIGHT_REALTIME_CHECK
    RealTimeSpan() {
        [[maybe_unused]] static const bool isReady = (__rtsan_init(), true);
        __rtsan_realtime_enter();
    }
    ~RealTimeSpan() {
        __rtsan_realtime_exit();
    }
#else
    RealTimeSpan() {}
    ~RealTimeSpan() {}
#endif
    RealTimeSpan(const RealTimeSpan&) = delete;
    RealTimeSpan& operator=(const RealTimeSpan&) = delete;
};

} // namespace earwright
