#include "core/engine/HeardLog.h"

#include <cmath>
#include <gtest/gtest.h>
#include <thread>

namespace earwright {
namespace {

HeardSegment moving(std::int64_t output, std::int64_t laneFrame) {
    HeardSegment segment;
    segment.output = OutputFrames(output);
    segment.laneFrame = laneFrame;
    segment.tags = TimeTags(0, 1, std::nullopt, 0);
    segment.moving = true;
    return segment;
}

TEST(HeardLog, FindsTheSegmentOfAnOutputFrame) {
    HeardLog log;
    EXPECT_FALSE(log.segmentAt(OutputFrames(0)).has_value());
    log.note(moving(100, 0));
    log.note(moving(200, 100)); // goes on: no new segment
    log.note(moving(300, 5000));
    EXPECT_FALSE(log.segmentAt(OutputFrames(99)).has_value());
    EXPECT_EQ(log.segmentAt(OutputFrames(250))->laneFrameAt(OutputFrames(250)), 150);
    EXPECT_EQ(log.segmentAt(OutputFrames(301))->laneFrameAt(OutputFrames(301)), 5001);
}

TEST(HeardLog, KeepsTheLastSixtyFourSegments) {
    HeardLog log;
    for (std::int64_t i = 0; i < 88; ++i)
        log.note(moving(100 * i, 7 * i));
    EXPECT_FALSE(log.segmentAt(OutputFrames(2399)).has_value());
    EXPECT_EQ(log.segmentAt(OutputFrames(2400))->laneFrame, 7 * 24);
    EXPECT_EQ(log.segmentAt(OutputFrames(99999))->laneFrame, 7 * 87);
}

TEST(HeardLog, SmoothsTheJitterOfReportedTimes) {
    HeardLog log;
    constexpr int rate = 48000;
    unsigned random = 3;
    double worst = 0;
    for (std::int64_t i = 0; i < 2000; ++i) {
        const std::int64_t frame = 256 * i;
        const auto exact = static_cast<std::int64_t>(static_cast<double>(frame) * 1e9 / rate) + 40'000'000;
        random = random * 1664525u + 1013904223u;
        const auto jitter = static_cast<std::int64_t>(random >> 8) % 8'000'000 - 4'000'000; // ±4 ms
        log.tick(OutputFrames(frame), exact + jitter, rate, OutputFrames(frame + 4096));
        if (i > 300) {
            const auto heard = log.heardAt(exact).value;
            worst = std::max(worst, std::abs(static_cast<double>(heard - frame)) / rate);
        }
    }
    EXPECT_LT(worst, 0.0015);
}

TEST(HeardLog, TakesALargeStepForANewLatency) {
    HeardLog log;
    log.tick(OutputFrames(0), 1'000'000'000, 48000, OutputFrames(256));
    log.tick(OutputFrames(256), 1'200'000'000, 48000, OutputFrames(512));
    EXPECT_EQ(log.heardAt(1'200'000'000), OutputFrames(256));
}

TEST(HeardLog, NeverTellsOfFramesThatWereNotRendered) {
    HeardLog log;
    log.tick(OutputFrames(0), 0, 48000, OutputFrames(256));
    EXPECT_EQ(log.heardAt(9'000'000'000), OutputFrames(256));
}

TEST(Snapshot, IsReadWholeWhileItIsWritten) {
    struct Pair {
        std::int64_t first = 0;
        std::int64_t rest[30] = {};
    };
    Snapshot<Pair> shared;
    std::jthread writer([&](const std::stop_token& stop) {
        Pair value;
        while (!stop.stop_requested()) {
            ++value.first;
            for (std::int64_t& each : value.rest)
                each = value.first;
            shared.store(value);
        }
    });
    for (int i = 0; i < 20000; ++i) {
        const Pair value = shared.load();
        for (const std::int64_t each : value.rest)
            ASSERT_EQ(each, value.first);
    }
}

} // namespace
} // namespace earwright
