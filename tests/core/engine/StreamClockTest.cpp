#include "core/engine/StreamClock.h"

#include <gtest/gtest.h>
#include <random>

namespace earwright {
namespace {

constexpr int rate = 48000;
constexpr std::int64_t second = 1'000'000'000;

TEST(StreamClock, KnowsNothingBeforeTheFirstReport) {
    const StreamClock clock;
    EXPECT_FALSE(clock.timeOf(0));
    EXPECT_FALSE(clock.lateness(0, 0));
}

TEST(StreamClock, SmoothsReportsThatJitterByMilliseconds) {
    StreamClock clock;
    std::mt19937 random(7);
    std::uniform_real_distribution<double> jitter(-5e6, 5e6);
    // 256 frames at 48 kHz are 5.333 ms.
    for (std::int64_t frame = 0; frame < 10 * rate; frame += 256)
        clock.tick(frame, 3 * second + frame * second / rate + static_cast<std::int64_t>(jitter(random)),
                   rate);
    // A uniform ±5 ms has a deviation of 2.9 ms; a mean that forgets at 1 % leaves √(0.01/1.99) of it: 0.2
    // ms. Four deviations.
    EXPECT_NEAR(static_cast<double>(*clock.timeOf(5 * rate)), 8e9, 0.8e6);
}

TEST(StreamClock, FollowsAClockThatIsALittleFast) {
    StreamClock clock;
    // 100 millionths fast: in the device's frames, a minute ends 6 ms early. The mean trails by 100 reports
    // of 0.53 µs each.
    std::int64_t frame = 0;
    for (; frame < 60 * rate; frame += 256)
        clock.tick(frame, static_cast<std::int64_t>(static_cast<double>(frame) * 1e9 / (rate * 1.0001)),
                   rate);
    const double truly = static_cast<double>(frame) * 1e9 / (rate * 1.0001);
    EXPECT_NEAR(static_cast<double>(*clock.timeOf(frame)), truly, 0.1e6);
}

TEST(StreamClock, TakesAJumpAtOnce) {
    StreamClock clock;
    for (std::int64_t frame = 0; frame < rate; frame += 256)
        clock.tick(frame, frame * second / rate, rate);
    EXPECT_NEAR(*clock.lateness(rate, second + 300'000'000), 300e6, 1e3);
    clock.tick(rate, second + 300'000'000, rate);
    EXPECT_NEAR(static_cast<double>(*clock.timeOf(rate)), 1.3e9, 1e3);
}

} // namespace
} // namespace earwright
