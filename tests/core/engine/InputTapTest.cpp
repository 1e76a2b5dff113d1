#include "core/engine/InputTap.h"

#include "core/engine/TakeRecorder.h"
#include "tests/core/engine/Soon.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <memory>

namespace earwright {
namespace {

using tests::soon;

InputBlock blockFrom(std::int64_t first, std::size_t frames, int channels = 1, std::int64_t stream = 1) {
    InputBlock block;
    block.first = InputFrames(first);
    block.stream = stream;
    block.rateHertz = 8000;
    block.channels = channels;
    block.frames = frames;
    for (std::size_t i = 0; i < frames * static_cast<std::size_t>(channels); ++i)
        block.samples[i] = static_cast<float>(first) + static_cast<float>(i);
    return block;
}

TEST(InputTap, KeepsNothingUntilItIsOpenedAndNothingFromBefore) {
    InputTap tap;
    tap.give(blockFrom(0, 8));
    EXPECT_TRUE(tap.take().samples.empty());
    tap.setOpen(true);
    tap.give(blockFrom(8, 8));
    tap.setOpen(true);
    EXPECT_TRUE(tap.take().samples.empty());
    tap.give(blockFrom(16, 8));
    tap.setOpen(false);
    EXPECT_TRUE(tap.take().samples.empty()) << "what it had is dropped";
}

TEST(InputTap, HandsOverWhatCameInOrderAndOnce) {
    InputTap tap;
    tap.setOpen(true);
    tap.give(blockFrom(0, 2));
    tap.give(blockFrom(2, 2));
    const TappedSound sound = tap.take();
    EXPECT_EQ(sound.samples, (std::vector<float>{0, 1, 2, 3}));
    EXPECT_EQ(sound.rate.hertz, 8000);
    EXPECT_TRUE(tap.take().samples.empty());
}

TEST(InputTap, MixesBothChannels) {
    InputTap tap;
    tap.setOpen(true);
    tap.give(blockFrom(0, 2, 2));
    EXPECT_EQ(tap.take().samples, (std::vector<float>{0.5f, 2.5f}));
}

TEST(InputTap, StartsAnewAfterAnInterruption) {
    InputTap tap;
    tap.setOpen(true);
    tap.give(blockFrom(0, 2));
    tap.give(blockFrom(64, 1));
    EXPECT_EQ(tap.take().samples, (std::vector<float>{64}));
    tap.give(blockFrom(65, 1, 1, 2));
    EXPECT_EQ(tap.take().samples, (std::vector<float>{65}));
}

TEST(InputTap, KeepsTheLastSecondOnly) {
    InputTap tap;
    tap.setOpen(true);
    for (std::int64_t first = 0; first < 10000; first += 50)
        tap.give(blockFrom(first, 50));
    const TappedSound sound = tap.take();
    ASSERT_EQ(sound.samples.size(), 8000u);
    EXPECT_EQ(sound.samples.back(), 9999.0f);
}

// What the input's callback brings, without a device: the recorder's thread hands it on.
TEST(InputTap, IsFilledFromTheInputWhileItIsOpen) {
    const auto capture = std::make_shared<Capture>(std::make_shared<MonitorTap>());
    TakeRecorder recorder(std::make_shared<Mixer>(), capture);
    std::vector<float> sound(200, 0.25f);
    std::int64_t taken = 0;
    const auto give = [&] {
        capture->take(sound, 1, SampleRate{48000}, taken * 1'000'000'000 / 48000, taken == 0);
        taken += 200;
    };
    give();
    recorder.setTapped(true);
    std::vector<float> heard;
    ASSERT_TRUE(soon([&] {
        give();
        const TappedSound more = recorder.tap().take();
        heard.insert(heard.end(), more.samples.begin(), more.samples.end());
        return heard.size() >= 400;
    }));
    EXPECT_EQ(heard.front(), 0.25f);
    recorder.setTapped(false);
    ASSERT_TRUE(soon([&] {
        give();
        return capture->blocks().readable() == 0;
    }));
    // What comes while it is closed is not there when it is opened again.
    std::fill(sound.begin(), sound.end(), 0.75f);
    give();
    give();
    recorder.setTapped(true);
    std::fill(sound.begin(), sound.end(), 0.5f);
    heard.clear();
    ASSERT_TRUE(soon([&] {
        give();
        const TappedSound more = recorder.tap().take();
        heard.insert(heard.end(), more.samples.begin(), more.samples.end());
        return heard.size() >= 400;
    }));
    EXPECT_EQ(heard, std::vector<float>(heard.size(), 0.5f));
}

} // namespace
} // namespace earwright
