#include "core/engine/SilentClock.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace std::chrono_literals;

TEST(SilentClock, AsksForAsManyFramesAsADeviceWould) {
    SilentClock clock;
    const SilentClock::Time start{};
    clock.restart(start);
    EXPECT_EQ(clock.due(start, 48000, 512), 0u);
    EXPECT_EQ(clock.due(start + 5ms, 48000, 512), 240u);
    clock.advance(240);
    EXPECT_EQ(clock.due(start + 5ms, 48000, 512), 0u);
    EXPECT_EQ(clock.due(start + 100ms, 48000, 512), 512u);
}

TEST(SilentClock, LosesNoFrameOverManySmallSteps) {
    SilentClock clock;
    const SilentClock::Time start{};
    clock.restart(start);
    std::size_t all = 0;
    for (int step = 1; step <= 3000; ++step) {
        const std::size_t due = clock.due(start + step * 3333us, 44100, 512);
        clock.advance(due);
        all += due;
    }
    EXPECT_NEAR(static_cast<double>(all), 44100 * 3000 * 3333e-6, 1.0);
}

TEST(SilentClock, DoesNotMakeUpForALongSleep) {
    SilentClock clock;
    const SilentClock::Time start{};
    clock.restart(start);
    EXPECT_EQ(clock.due(start + 60s, 48000, 512), 0u);
    EXPECT_EQ(clock.due(start + 60s + 5ms, 48000, 512), 240u);
}

} // namespace
} // namespace earwright
