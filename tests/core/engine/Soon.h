// Waiting for what other threads and devices do in their own time.
#pragma once

#include <chrono>
#include <functional>
#include <thread>

namespace earwright::tests {

/// True as soon as it holds; false after `patience`. That is long, because a machine may be busy, and nothing
/// is judged by it.
inline bool soon(const std::function<bool()>& happens,
                 std::chrono::milliseconds patience = std::chrono::seconds(20)) {
    using Clock = std::chrono::steady_clock;
    const auto end = Clock::now() + patience;
    while (Clock::now() < end) {
        if (happens()) return true;
        std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    return false;
}

} // namespace earwright::tests
