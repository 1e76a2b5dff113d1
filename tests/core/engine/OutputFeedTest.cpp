#include "core/engine/OutputFeed.h"

#include "core/engine/SteadyNow.h"

#include <chrono>
#include <cstdint>
#include <gtest/gtest.h>
#include <memory>
#include <thread>
#include <utility>
#include <vector>

namespace earwright {
namespace {

using namespace std::chrono_literals;

constexpr std::size_t frames = 256;

/// A feed whose mixer counts what is rendered.
struct CountedFeed {
    std::shared_ptr<Mixer> mixer = std::make_shared<Mixer>();
    OutputFeed feed{mixer};

    CountedFeed() { feed.setRate(SampleRate{44100}); }
    std::int64_t rendered() const { return mixer->heard().clock().rendered.value; }
    /// What the callback's buffer holds after it, full of noise before.
    std::vector<float> callBack(double secondsUntilHeard = 0.05) {
        std::vector<float> stereo(2 * frames, 0.7f);
        feed.fill(stereo, secondsUntilHeard, false);
        return stereo;
    }
};

TEST(OutputFeed, GivesTheStreamSilenceUntilItBegins) {
    CountedFeed one;
    EXPECT_EQ(one.callBack(), std::vector<float>(2 * frames, 0.0f));
    EXPECT_EQ(one.rendered(), 0);
    EXPECT_FALSE(one.feed.end()) << "it was off";
}

TEST(OutputFeed, RendersForTheStreamOnceItBeginsAndNotAfterItEnds) {
    CountedFeed one;
    one.feed.begin({SampleRate{44100}, 0.08, 0.1});
    EXPECT_TRUE(one.feed.isOn());
    one.callBack();
    one.callBack();
    EXPECT_EQ(one.rendered(), static_cast<std::int64_t>(2 * frames));
    EXPECT_EQ(one.mixer->heard().clock().rateHertz, 44100);
    EXPECT_TRUE(one.feed.end());
    one.callBack();
    EXPECT_EQ(one.rendered(), static_cast<std::int64_t>(2 * frames));
}

TEST(OutputFeed, RendersInTimeByTheSilentClockOnlyWhileNoStreamDoes) {
    CountedFeed one;
    one.feed.beginSilently();
    std::this_thread::sleep_for(30ms);
    one.feed.renderSilently();
    const std::int64_t silently = one.rendered();
    // The clock is read once more for each block, so that a little more than the wait may be due.
    EXPECT_GE(silently, 44100 * 30 / 1000);
    one.feed.begin({SampleRate{44100}, 0.08, 0.1});
    std::this_thread::sleep_for(30ms);
    one.feed.renderSilently();
    EXPECT_EQ(one.rendered(), silently);
}

TEST(OutputFeed, TakesTheLatencyWhereTheDeviceTellsNoTime) {
    // What the device tells of the first callback is taken: 0.3 s; then the stream's own 0.08 s.
    for (const auto& [told, ahead] : {std::pair(0.3, 0.3), std::pair(0.0, 0.08), std::pair(7.0, 0.08)}) {
        CountedFeed one;
        one.feed.begin({SampleRate{44100}, 0.08, 0.1});
        const std::int64_t before = steadyNanoseconds();
        one.callBack(told);
        const std::int64_t after = steadyNanoseconds();
        const std::int64_t called =
            one.mixer->heard().clock().steadyNanoseconds - static_cast<std::int64_t>(ahead * 1e9);
        EXPECT_GE(called, before) << told;
        EXPECT_LE(called, after) << told;
    }
}

TEST(OutputFeed, KnowsHowLongTheStreamHasNotCalledBack) {
    CountedFeed one;
    one.feed.begin({SampleRate{44100}, 0.08, 0.1});
    std::this_thread::sleep_for(30ms);
    EXPECT_GE(one.feed.sinceCallback(), 30ms);
    one.callBack();
    const auto since = one.feed.sinceCallback();
    std::this_thread::sleep_for(30ms);
    EXPECT_GE(one.feed.sinceCallback(), since + 30ms);
}

} // namespace
} // namespace earwright
