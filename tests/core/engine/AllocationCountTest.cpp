// A count of nought proves something only where the count counts.
#include "tests/core/engine/AllocationCount.h"

#include <cstdint>
#include <gtest/gtest.h>
#include <memory>
#include <thread>
#include <vector>

namespace earwright {
namespace {

/// Where everybody could see it, nothing taken can be left out by the compiler.
void* volatile seen = nullptr;

struct alignas(64) Wide {
    float lane[16] = {};
};

TEST(AllocationCount, CountsWhatIsTakenAndGivenBack) {
    const tests::AllocationCount allocations;
    EXPECT_EQ(allocations.soFar(), 0u);
    auto one = std::make_unique<int>(1);
    seen = one.get();
    EXPECT_EQ(allocations.soFar(), 1u);
    one.reset();
    EXPECT_EQ(allocations.soFar(), 2u);
    std::vector<float> grown(100);
    seen = grown.data();
    EXPECT_EQ(allocations.soFar(), 3u);
    grown.resize(10'000); // takes anew, gives back
    seen = grown.data();
    EXPECT_EQ(allocations.soFar(), 5u);
}

TEST(AllocationCount, CountsWhatIsAligned) {
    const tests::AllocationCount allocations;
    auto wide = std::make_unique<Wide>();
    seen = wide.get();
    EXPECT_EQ(reinterpret_cast<std::uintptr_t>(wide.get()) % 64, 0u);
    EXPECT_EQ(allocations.soFar(), 1u);
    wide.reset();
    EXPECT_EQ(allocations.soFar(), 2u);
}

TEST(AllocationCount, LeavesOtherThreadsOut) {
    std::size_t there = 0;
    std::thread other;
    {
        const tests::AllocationCount before;
        other = std::thread([&there] {
            const tests::AllocationCount allocations;
            for (int i = 0; i < 100; ++i) {
                const std::vector<float> some(1000);
                seen = const_cast<float*>(some.data());
            }
            there = allocations.soFar();
        });
        other.join();
        EXPECT_LT(before.soFar(), 10u) << "what a thread takes to start";
    }
    EXPECT_EQ(there, 200u);
}

} // namespace
} // namespace earwright
