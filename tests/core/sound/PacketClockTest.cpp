#include "core/sound/PacketClock.h"

#include <cmath>
#include <cstdint>
#include <gtest/gtest.h>
#include <limits>

namespace earwright {
namespace {

TEST(PacketClock, CountsFramesWhereTicksAreFrames) {
    const PacketClock clock({SampleRate{44100}, 1, 44100, 0, Frames(0), Frames(1024)});
    EXPECT_EQ(clock.tolerance(), Frames(0));
    EXPECT_EQ(clock.placeOf(-1024), Frames(-1024));
    EXPECT_EQ(clock.placeOf(1000), Frames(1000)); // no grid is needed where nothing was rounded
    EXPECT_EQ(clock.tickBefore(Frames(1000)), 1000);
}

TEST(PacketClock, FindsEveryPacketOfAMillisecondClockOnItsGrid) {
    constexpr int rate = 44100;
    const PacketClock clock({SampleRate{rate}, 1, 1000, 0, Frames(0), Frames(1024)});
    for (std::int64_t packet = 0; packet < 465000; packet += 97) { // three hours
        const std::int64_t frame = packet * 1024;
        const auto stamp = std::llround(static_cast<double>(frame) * 1000 / rate);
        ASSERT_EQ(clock.placeOf(stamp), Frames(frame)) << packet;
    }
}

TEST(PacketClock, CountsFromADelayThatTheStampsRound) {
    // Opus: 312 frames of delay at 48 kHz are 6.5 ms, stamped as −7 or −6.
    for (const std::int64_t origin : {-7, -6}) {
        const PacketClock clock({SampleRate{48000}, 1, 1000, origin, Frames(-312), Frames(960)});
        for (std::int64_t packet = 0; packet < 1000; ++packet) {
            const auto exact = static_cast<double>(packet * 960 - 312) / 48;
            ASSERT_EQ(clock.placeOf(std::llround(std::floor(exact))), Frames(packet * 960 - 312));
            ASSERT_EQ(clock.placeOf(std::llround(std::ceil(exact))), Frames(packet * 960 - 312));
        }
    }
}

TEST(PacketClock, TakesAStampAtItsWordWhereItIsOffTheGrid) {
    const PacketClock clock({SampleRate{44100}, 1, 1000, 0, Frames(0), Frames(1024)});
    EXPECT_EQ(clock.placeOf(10), Frames(441)); // 10 ms, midway between two packets: a gap in the stream
    EXPECT_LE(clock.placeOf(clock.tickBefore(Frames(441))), Frames(441));
}

TEST(PacketClock, KeepsItsHeadWithStampsThatAreDamage) {
    const PacketClock clock({SampleRate{48000}, 1, 1000, 0, Frames(0), Frames(960)});
    EXPECT_GT(clock.placeOf(std::numeric_limits<std::int64_t>::max()), Frames(0));
    EXPECT_LT(clock.placeOf(std::numeric_limits<std::int64_t>::min()), Frames(0));
    const PacketClock damaged(
        {SampleRate{48000}, 1, 1000, std::numeric_limits<std::int64_t>::max(), Frames(0), Frames(960)});
    EXPECT_GT(damaged.tickBefore(Frames(48000LL * 3600 * 48)), 0);
    EXPECT_GT(damaged.tickBefore(Frames(0)), 0);
}

} // namespace
} // namespace earwright
