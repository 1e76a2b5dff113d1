#include "core/engine/DeviceStory.h"

#include "core/engine/OutputStream.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(DeviceStory, KeepsWhatHappenedInOrder) {
    DeviceStory story(DeviceState::Opening);
    story.running("desk speakers", "", 48000, 0.08);
    story.gaps(2, 0.27);
    story.trouble(DeviceState::Lost, "desk speakers", device_words::lost);
    story.running("desk speakers", "", 48000, 0.08);
    const DeviceReport report = story.report();
    ASSERT_EQ(report.events.size(), 4u);
    for (std::size_t i = 0; i < report.events.size(); ++i)
        EXPECT_EQ(report.events[i].number, static_cast<std::int64_t>(i) + 1);
    EXPECT_EQ(report.events[1].underruns, 2);
    EXPECT_NE(report.events[1].message.find("270 ms"), std::string::npos) << report.events[1].message;
    EXPECT_EQ(report.events[2].state, DeviceState::Lost);
    EXPECT_EQ(report.events[2].message, device_words::lost);
    EXPECT_EQ(report.events[3].state, DeviceState::Running);
    EXPECT_TRUE(report.message.empty());
    EXPECT_LE(report.events[2].steadyNanoseconds, report.events[3].steadyNanoseconds);
}

TEST(DeviceStory, SaysTheSameTroubleOnce) {
    DeviceStory story(DeviceState::Opening);
    for (int retry = 0; retry < 5; ++retry)
        story.trouble(DeviceState::Missing, "", "There is no sound device.");
    story.gaps(0, 0.17);
    EXPECT_EQ(story.report().events.size(), 1u);
}

TEST(DeviceStory, ForgetsTheOldestOfMany) {
    DeviceStory story(DeviceState::Running);
    for (int gaps = 1; gaps <= 1000; ++gaps)
        story.gaps(gaps, 0.2);
    const auto events = story.report().events;
    ASSERT_EQ(events.size(), DeviceStory::mostEvents);
    EXPECT_EQ(events.back().number, 1000);
    EXPECT_EQ(events.front().number, 1001 - static_cast<std::int64_t>(DeviceStory::mostEvents));
}

std::vector<DeviceChoice> twoDevices() {
    return {{3, "desk speakers", true, {}, 48000, 0.01}, {7, "headphones", false, {}, 44100, 0.01}};
}

TEST(DeviceChoosing, GoesByNameBeforeIndex) {
    const auto chosen = chooseDevice(twoDevices(), {.index = 3, .name = "headphones"}, false);
    ASSERT_TRUE(chosen);
    EXPECT_EQ(chosen->device.index, 7);
    EXPECT_TRUE(chosen->remark.empty());
}

TEST(DeviceChoosing, TakesTheSystemsDefaultWhereNothingIsWishedFor) {
    EXPECT_EQ(chooseDevice(twoDevices(), {}, false)->device.name, "desk speakers");
    EXPECT_EQ(chooseDevice(twoDevices(), {.index = 7}, false)->device.name, "headphones");
}

TEST(DeviceChoosing, LetsTheDefaultStandInForADeviceThatIsNotThereAndSaysSo) {
    const auto chosen = chooseDevice(twoDevices(), {.name = "stage box"}, false);
    ASSERT_TRUE(chosen);
    EXPECT_EQ(chosen->device.name, "desk speakers");
    EXPECT_NE(chosen->remark.find("stage box"), std::string::npos);
    EXPECT_NE(chosen->remark.find("desk speakers"), std::string::npos);
}

TEST(DeviceChoosing, WaitsForTheDeviceThatWasLost) {
    EXPECT_FALSE(chooseDevice(twoDevices(), {.name = "stage box"}, true));
    EXPECT_FALSE(chooseDevice(twoDevices(), {.index = 4711}, false));
    EXPECT_FALSE(chooseDevice({}, {}, false));
}

} // namespace
} // namespace earwright
