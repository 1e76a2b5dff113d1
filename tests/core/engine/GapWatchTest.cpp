#include "core/engine/GapWatch.h"

#include "core/engine/KeptAhead.h"
#include "core/engine/LatencyGrowth.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace std::chrono_literals;

constexpr std::int64_t millisecond = 1'000'000;

TEST(GapWatch, TakesCallbacksForPunctualWhileTheDeviceStillHasSound) {
    GapWatch watch;
    watch.restart(0.1);
    std::int64_t now = 7'000 * millisecond;
    EXPECT_FALSE(watch.called(now, false)) << "nothing was played before the first";
    // In bursts, the longest pause just short of the 100 ms the device has room for.
    for (const int pause : {6, 0, 0, 99, 0, 6, 99}) {
        now += pause * millisecond;
        EXPECT_FALSE(watch.called(now, false)) << pause;
    }
}

TEST(GapWatch, FindsTheCallbackThatCameTooLate) {
    GapWatch watch;
    watch.restart(0.1);
    std::int64_t now = millisecond;
    watch.called(now, false);
    EXPECT_TRUE(watch.called(now += 101 * millisecond, false));
    EXPECT_FALSE(watch.called(now += 5 * millisecond, false)) << "one gap is counted once";
}

TEST(GapWatch, CountsAGapOnceWhereTheSystemReportsIt) {
    GapWatch watch;
    watch.restart(0.1);
    EXPECT_FALSE(watch.called(millisecond, true)) << "a device that starts has had nothing to play";
    EXPECT_TRUE(watch.called(6 * millisecond, true));
    EXPECT_TRUE(watch.called(200 * millisecond, true)) << "late and reported is one gap";
    EXPECT_FALSE(watch.called(205 * millisecond, false));
}

TEST(GapWatch, BeginsAnewWithAnotherDevice) {
    GapWatch watch;
    watch.restart(0.05);
    watch.called(millisecond, false);
    watch.restart(0.2);
    EXPECT_FALSE(watch.called(9'000 * millisecond, false)) << "the time between two devices is no gap";
    EXPECT_FALSE(watch.called(9'150 * millisecond, false));
    EXPECT_TRUE(watch.called(9'351 * millisecond, false));
}

TEST(KeptAhead, GrowsWithEveryGapUpToABound) {
    double before = KeptAhead{0.08, 0}.seconds();
    EXPECT_DOUBLE_EQ(before, KeptAhead{}.atFirst());
    for (int gaps = 1; gaps <= KeptAhead::mostSteps; ++gaps) {
        const double now = KeptAhead{0.08, gaps}.seconds();
        EXPECT_NEAR(now - before, 0.05, 1e-9) << gaps;
        before = now;
    }
    EXPECT_DOUBLE_EQ((KeptAhead{0.08, 100000}.seconds()), before);
    EXPECT_DOUBLE_EQ((KeptAhead{0.5, 100000}.seconds()), KeptAhead::most);
}

TEST(KeptAhead, AlwaysHoldsMoreThanADeviceTakesAtOnce) {
    for (double room = 0.01; room < 0.52; room += 0.01)
        EXPECT_GE((KeptAhead{room, 0}.seconds()), room + 0.08) << room;
}

TEST(LatencyGrowth, DoublesAfterThreeGapsInFiveSeconds) {
    const LatencyGrowth::Time start{};
    LatencyGrowth growth;
    growth.restart(0.08, 10, start);
    EXPECT_FALSE(growth.isGrown());
    EXPECT_FALSE(growth.notice(12, start + 1s));
    EXPECT_TRUE(growth.notice(13, start + 2s));
    EXPECT_DOUBLE_EQ(growth.latencySeconds(), 0.16);
    EXPECT_TRUE(growth.isGrown());
    EXPECT_FALSE(growth.notice(13, start + 3s)) << "the same gaps do not count twice";
}

TEST(LatencyGrowth, BearsGapsThatAreFarApart) {
    LatencyGrowth::Time now{};
    LatencyGrowth growth;
    growth.restart(0.08, 0, now);
    for (int gaps = 1; gaps < 50; ++gaps)
        EXPECT_FALSE(growth.notice(gaps, now += 6s));
    EXPECT_DOUBLE_EQ(growth.latencySeconds(), 0.08);
}

TEST(LatencyGrowth, EndsAtAThirdOfASecond) {
    LatencyGrowth::Time now{};
    LatencyGrowth growth;
    growth.restart(0.2, 0, now);
    EXPECT_TRUE(growth.notice(3, now += 1s));
    EXPECT_DOUBLE_EQ(growth.latencySeconds(), LatencyGrowth::longest);
    EXPECT_FALSE(growth.notice(6, now += 1s));
    growth.restart(0.5, 6, now);
    EXPECT_FALSE(growth.notice(60, now += 1s)) << "a wish above the bound stays as it is";
    EXPECT_DOUBLE_EQ(growth.latencySeconds(), 0.5);
}

} // namespace
} // namespace earwright
