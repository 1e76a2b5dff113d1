// Time and memory that reading a file from elsewhere may take, however it was made.
#pragma once

#include <ctime>
#include <gtest/gtest.h>
#include <sys/resource.h>

namespace earwright {

/// Expects, when it goes, that no more than a second of this process's time has passed since it was made, and
/// that its memory has not grown by more than 300 MB: what a text of the greatest size takes as a tree.
class WithinBounds {
public:
    WithinBounds() : begin(std::clock()), memoryBefore(peakKilobytes()) {}
    ~WithinBounds() {
        EXPECT_LT(static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC, 1.0 * slowdown);
        if (slowdown > 1) return;
        EXPECT_LT(peakKilobytes() - memoryBefore, 300'000);
    }
    WithinBounds(const WithinBounds&) = delete;
    WithinBounds& operator=(const WithinBounds&) = delete;

private:
    static long peakKilobytes() {
        rusage usage{};
        getrusage(RUSAGE_SELF, &usage);
        return usage.ru_maxrss;
    }
    /// Sanitizers take time and memory of their own.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
    static constexpr int slowdown = 10;
#else
    static constexpr int slowdown = 1;
#endif

    std::clock_t begin;
    long memoryBefore;
};

} // namespace earwright
