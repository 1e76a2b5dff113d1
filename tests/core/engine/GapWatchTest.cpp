#include "core/engine/GapWatch.h"

#include "core/engine/KeptAhead.h"
#include "core/engine/LatencyGrowth.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace std::chrono_literals;

constexpr std::int64_t millisecond = 1'000'000;

/// A device with room for 100 ms, called for 5 ms of sound each time.
class WatchedDevice {
public:
    WatchedDevice() { watch.restart(0.1); }
    /// A callback so much later, whose sound is heard `silence` after the end of what was handed over before.
    bool calledAfter(int milliseconds, int silence = 0, bool ranDry = false) {
        now += milliseconds * millisecond;
        heard += 5 * millisecond + silence * millisecond;
        return watch.called({now, heard, 5 * millisecond, ranDry});
    }
    /// The same where the system does not tell when sound is heard.
    bool calledBlindlyAfter(int milliseconds) {
        now += milliseconds * millisecond;
        return watch.called({now, 0, 5 * millisecond, false});
    }
    GapWatch watch;

private:
    std::int64_t now = 7'000 * millisecond;
    std::int64_t heard = 7'080 * millisecond;
};

TEST(GapWatch, TakesCallbacksForPunctualWhileTheDeviceStillHasSound) {
    WatchedDevice device;
    EXPECT_FALSE(device.calledAfter(0)) << "nothing was played before the first";
    // In bursts, the longest pause just short of the 100 ms the device has room for; times jitter by 2 ms.
    for (const int pause : {6, 0, 0, 99, 0, 6, 99})
        EXPECT_FALSE(device.calledAfter(pause, 2)) << pause;
}

TEST(GapWatch, FindsTheCallbackThatCameTooLate) {
    WatchedDevice device;
    device.calledAfter(0);
    EXPECT_TRUE(device.calledAfter(140, 40));
    EXPECT_FALSE(device.calledAfter(5)) << "one gap is counted once";
}

TEST(GapWatch, DoesNotCountALateCallbackWhoseSoundStillJoins) {
    WatchedDevice device;
    device.calledAfter(0);
    EXPECT_FALSE(device.calledAfter(140)) << "the server had some more";
    EXPECT_TRUE(device.calledAfter(180, 30));
}

TEST(GapWatch, CountsEveryLateCallbackWhereTheSystemDoesNotTellWhatIsHeard) {
    WatchedDevice device;
    device.calledBlindlyAfter(0);
    EXPECT_FALSE(device.calledBlindlyAfter(99));
    EXPECT_TRUE(device.calledBlindlyAfter(101));
}

TEST(GapWatch, CountsAGapOnceWhereTheSystemReportsIt) {
    WatchedDevice device;
    EXPECT_FALSE(device.calledAfter(0, 0, true)) << "a device that starts has had nothing to play";
    EXPECT_TRUE(device.calledAfter(6, 0, true));
    EXPECT_FALSE(device.calledAfter(110, 50)) << "the times after a restart belong to the same gap";
    EXPECT_TRUE(device.calledAfter(300, 100, true)) << "late and reported is one gap";
    EXPECT_FALSE(device.calledAfter(5));
}

TEST(GapWatch, BeginsAnewWithAnotherDevice) {
    WatchedDevice device;
    device.calledAfter(1);
    device.watch.restart(0.2);
    EXPECT_FALSE(device.calledAfter(9'000, 5'000)) << "the time between two devices is no gap";
    EXPECT_FALSE(device.calledAfter(150, 20));
    EXPECT_TRUE(device.calledAfter(201, 20));
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
