#include "core/engine/Capture.h"

#include "tests/core/engine/AllocationCount.h"

#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

constexpr SampleRate rate{48000};
constexpr std::int64_t second = 1'000'000'000;

/// A stereo ramp: left counts frames in millionths, right is its negative.
std::vector<float> ramp(std::int64_t from, std::size_t frames) {
    std::vector<float> samples;
    for (std::size_t i = 0; i < frames; ++i) {
        const float value = static_cast<float>(from + static_cast<std::int64_t>(i)) * 1e-6f;
        samples.insert(samples.end(), {value, -value});
    }
    return samples;
}

class TakingIn : public testing::Test {
protected:
    void give(std::int64_t from, std::size_t frames, std::int64_t atNanoseconds, bool newStream = false) {
        capture.take(ramp(from, frames), 2, rate, atNanoseconds, newStream);
    }
    std::vector<InputBlock> kept() {
        std::vector<InputBlock> blocks(capture.blocks().readable());
        capture.blocks().read(blocks);
        return blocks;
    }
    std::shared_ptr<MonitorTap> tap = std::make_shared<MonitorTap>();
    Capture capture{tap};
};

TEST_F(TakingIn, KeepsEveryFrameUnderItsStamp) {
    capture.setKeeping(true);
    give(0, 100, 0, true);
    give(100, 50, 100 * second / rate.hertz);
    std::int64_t expected = 0;
    for (const InputBlock& block : kept()) {
        EXPECT_EQ(block.first, InputFrames(expected));
        EXPECT_EQ(block.channels, 2);
        for (std::size_t i = 0; i < block.frames; ++i) {
            EXPECT_FLOAT_EQ(block.samples[2 * i], static_cast<float>(expected) * 1e-6f);
            EXPECT_FLOAT_EQ(block.samples[2 * i + 1], static_cast<float>(-expected) * 1e-6f);
            ++expected;
        }
    }
    EXPECT_EQ(expected, 150);
}

TEST_F(TakingIn, KeepsNothingUnlessAsked) {
    give(0, 100, 0, true);
    EXPECT_TRUE(kept().empty());
    EXPECT_EQ(capture.framesTaken(), 100);
}

TEST_F(TakingIn, KeepsOneChannelWhereAnInstrumentIsPluggedIntoOneSocket) {
    capture.setKeeping(true);
    capture.choose(InputChannels::Second);
    give(10, 4, 0, true);
    const auto blocks = kept();
    ASSERT_EQ(blocks.size(), 1u);
    EXPECT_EQ(blocks[0].channels, 1);
    EXPECT_FLOAT_EQ(blocks[0].samples[3], -13e-6f);
}

TEST_F(TakingIn, CountsFramesThatWereLost) {
    capture.setKeeping(true);
    give(0, 480, 0, true);
    // 0.01 s are in; the next come as if 0.3 s had passed, so 0.29 s are missing.
    give(480, 480, 3 * second / 10);
    const auto blocks = kept();
    EXPECT_EQ(blocks.back().first.value + static_cast<std::int64_t>(blocks.back().frames), 14400 + 480);
    EXPECT_NEAR(static_cast<double>(*capture.timeOf(InputFrames(14400))), 0.3e9, 1e4);
}

TEST_F(TakingIn, StampsGoOnWithAnotherStream) {
    capture.setKeeping(true);
    give(0, 64, 0, true);
    give(0, 64, 900 * second, true);
    const auto blocks = kept();
    ASSERT_EQ(blocks.size(), 2u);
    EXPECT_EQ(blocks[1].first, InputFrames(64));
    EXPECT_NE(blocks[0].stream, blocks[1].stream);
}

TEST_F(TakingIn, ShowsTheHighestLevelAndWhatWasCutOff) {
    capture.take(std::vector<float>{0.1f, -0.5f, 0.2f, 0.1f}, 2, rate, 0, true);
    EXPECT_FLOAT_EQ(capture.takePeak(), 0.5f);
    EXPECT_FLOAT_EQ(capture.takePeak(), 0.0f);
    EXPECT_EQ(capture.clippedSamples(), 0);
    capture.take(std::vector<float>{1.0f, -1.0f, 0.2f, 0.1f}, 2, rate, 0, false);
    EXPECT_EQ(capture.clippedSamples(), 2);
}

TEST_F(TakingIn, NeverAllocatesInTheCallback) {
    capture.setKeeping(true);
    tap->setHeard(true);
    const std::vector<float> samples = ramp(0, 256);
    std::vector<float> mono(64);
    const tests::AllocationCount allocations;
    for (int i = 0; i < 400; ++i) {
        capture.take(samples, 2, rate, i * 256LL * second / rate.hertz, i == 0);
        for (int part = 0; part < 4; ++part)
            tap->add(mono, rate);
    }
    EXPECT_EQ(allocations.soFar(), 0u);
}

} // namespace
} // namespace earwright
