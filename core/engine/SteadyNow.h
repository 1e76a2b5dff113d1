// The steady clock as the engine's time stamps count it.
#pragma once

#include <chrono>
#include <cstdint>

namespace earwright {

/// Nanoseconds of the steady clock now. Threads: any. Real time safe.
inline std::int64_t steadyNanoseconds() {
    return std::chrono::duration_cast<std::chrono::nanoseconds>(
               std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

} // namespace earwright
