// The engine through a real PortAudio device, judged by the sound that came out of it.
#include "core/engine/Engine.h"
#include "tests/core/engine/HeldRecording.h"
#include "tests/core/engine/PrivateSound.h"
#include "tests/core/engine/Soon.h"
#include "tests/core/engine/WithoutGaps.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <functional>
#include <gtest/gtest.h>
#include <span>
#include <thread>
#include <vector>

namespace earwright {
namespace {

using namespace std::chrono_literals;
using tests::soon;

constexpr int rate = 44100;

/// Frames in which something louder than half the clicks starts, at least 10 ms apart.
std::vector<long> clicksIn(const std::vector<float>& stereo) {
    std::vector<long> found;
    for (std::size_t i = 0; 2 * i < stereo.size(); ++i)
        if (std::abs(stereo[2 * i]) > 0.35f &&
            (found.empty() || static_cast<long>(i) - found.back() > rate / 100))
            found.push_back(static_cast<long>(i));
    return found;
}

/// A click every half second over silence, for a minute.
std::shared_ptr<Recording> clickingMinute() {
    std::vector<float> samples(60 * rate, 0.0f);
    for (std::size_t i = rate / 2; i < samples.size(); i += rate / 2)
        samples[i] = 0.7f;
    return tests::held(samples, rate);
}

class RealDevice : public testing::Test {
protected:
    void SetUp() override {
        if (!tests::PrivateSound::isAvailable()) GTEST_SKIP() << "pulseaudio is not installed";
        sound = std::make_unique<tests::PrivateSound>();
        // Enough in the device to stand a machine that is busy with other tests.
        engine = std::make_unique<Engine>(Engine::Options{{.latencySeconds = 0.2}, true});
        engine->setRecording(clickingMinute());
        ASSERT_TRUE(isIn(DeviceState::Running)) << engine->device().message;
    }
    bool isIn(DeviceState state) {
        return soon([&] { return engine->device().state == state; });
    }
    bool movesOn() {
        const Frames before = engine->now().position;
        return soon([&] { return engine->now().position > before + Frames(rate / 5); });
    }
    void reach(double seconds) {
        ASSERT_TRUE(soon([&] { return engine->now().position >= Frames(std::lround(seconds * rate)); }));
    }

    /// What comes out from a place of the recording on, while `goes` plays and changes it.
    bool hears(double from, const std::function<void()>& goes) {
        return tests::heardWithoutGaps(*engine, [&] {
            const Frames start(std::lround(from * rate));
            engine->setPlaying({});
            engine->seek(start);
            sound->record();
            engine->play();
            // The place played before is heard a little longer.
            ASSERT_TRUE(soon([&] { return engine->now().position < start + Frames(rate); }));
            goes();
            engine->pause();
            clicks = clicksIn(sound->recorded());
        });
    }

    std::unique_ptr<tests::PrivateSound> sound;
    std::unique_ptr<Engine> engine;
    /// What hears() heard.
    std::vector<long> clicks;
};

#define SKIP_WHERE_THE_MACHINE_IS_TOO_BUSY                                                                   \
    GTEST_SKIP() << "the machine is too busy: " << engine->device().underruns << " gaps"

TEST_F(RealDevice, PlaysEverySampleInItsPlace) {
    if (!hears(0, [&] { reach(2.8); })) SKIP_WHERE_THE_MACHINE_IS_TOO_BUSY;
    ASSERT_GE(clicks.size(), 4u);
    for (std::size_t i = 1; i < clicks.size(); ++i)
        EXPECT_EQ(clicks[i] - clicks[i - 1], rate / 2);
}

TEST_F(RealDevice, PlaysALoopWithItsExactLength) {
    // Each pass holds one click.
    const Range loop{Frames(rate / 2 - 1000), Frames(rate / 2 - 1000 + 13230)};
    engine->setLoop(loop);
    const auto fivePasses = [&] { ASSERT_TRUE(soon([&] { return engine->now().pass >= 5; })); };
    if (!hears(SampleRate{rate}.seconds(loop.begin).value, fivePasses)) SKIP_WHERE_THE_MACHINE_IS_TOO_BUSY;
    ASSERT_GE(clicks.size(), 4u);
    for (std::size_t i = 1; i < clicks.size(); ++i)
        EXPECT_EQ(clicks[i] - clicks[i - 1], 13230);
}

TEST_F(RealDevice, SlowsDownWhileItPlays) {
    const auto slowingDown = [&] {
        reach(1.2);
        engine->setPlaying({0.5, 0, 0});
        reach(3.2);
    };
    if (!hears(0, slowingDown)) SKIP_WHERE_THE_MACHINE_IS_TOO_BUSY;
    ASSERT_GE(clicks.size(), 5u);
    EXPECT_EQ(clicks[1] - clicks[0], rate / 2);
    // Twice as far apart, within the stretcher's jitter for a single click: 3 ms.
    EXPECT_NEAR(static_cast<double>(clicks[4] - clicks[3]), rate, 0.003 * rate);
    EXPECT_NEAR(static_cast<double>(clicks[3] - clicks[2]), rate, 0.003 * rate);
}

TEST_F(RealDevice, ShowsThePlaceThatIsHeard) {
    OutputFrames last;
    const auto seekingAndSlowing = [&] {
        reach(0.6);
        engine->seek(Frames(20 * rate));
        reach(20.7);
        engine->setPlaying({0.75, 0, 0});
        reach(22.6);
        last = engine->heardFrame();
    };
    if (!hears(0, seekingAndSlowing)) SKIP_WHERE_THE_MACHINE_IS_TOO_BUSY;
    ASSERT_GE(clicks.size(), 5u);
    // The recording of the monitor starts at some output frame. For the right one, the tag of every click is
    // a half second of the recording.
    const auto worstOff = [&](std::int64_t start) {
        double worst = 0;
        for (const long click : clicks) {
            const auto place = engine->placeAt(OutputFrames(start + click));
            if (!place) return 1e9;
            const double half = static_cast<double>(place->value) / (rate / 2);
            worst = std::max(worst, std::abs(half - std::round(half)) * 500);
        }
        return worst;
    };
    double best = 1e9;
    for (std::int64_t start = last.value - 10 * rate; start < last.value; start += 20)
        best = std::min(best, worstOff(start));
    EXPECT_LT(best, 3.0) << "ms of the recording, over a seek and a change of speed";
}

TEST_F(RealDevice, TriesANoteAsTheRecordIsTransposed) {
    std::vector<float> tried;
    const bool isWhole = tests::heardWithoutGaps(*engine, [&] {
        engine->setTuning(25);
        engine->setPlaying({1.0, 3, -50});
        sound->record();
        engine->audition(57, 0.8);
        std::this_thread::sleep_for(1s);
        tried.clear();
        const std::vector<float> stereo = sound->recorded();
        for (std::size_t i = 0; i < stereo.size(); i += 2)
            tried.push_back(stereo[i]);
    });
    if (!isWhole) SKIP_WHERE_THE_MACHINE_IS_TOO_BUSY;
    const auto start =
        std::ranges::find_if(tried, [](float sample) { return std::abs(sample) > 0.01f; }) - tried.begin();
    ASSERT_LT(start + rate / 2, std::ssize(tried)) << "half a second of the note";
    const auto sounding = std::span(tried).subspan(static_cast<std::size_t>(start + rate / 10),
                                                   static_cast<std::size_t>(rate) / 4);
    const double expected = tests::hertzOfMidi(57 + 3 - 0.5 + 0.25);
    EXPECT_NEAR(tests::cents(tests::hertzNear(sounding, expected, rate), expected), 0, 5);
}

TEST_F(RealDevice, ListsTheDeviceAndOpensItAgainOnRequest) {
    const auto devices = engine->devices();
    ASSERT_FALSE(devices.empty());
    EXPECT_FALSE(devices.front().name.empty());
    engine->play();
    ASSERT_TRUE(movesOn());
    engine->useDevice({.index = devices.front().index});
    ASSERT_TRUE(isIn(DeviceState::Running));
    EXPECT_TRUE(movesOn());
    engine->useDevice({.index = 4711});
    ASSERT_TRUE(isIn(DeviceState::Missing));
    EXPECT_FALSE(engine->device().message.empty());
    EXPECT_TRUE(movesOn());
}

TEST(OutputDevice, SaysThatThereIsNoneAndPlaysOnSilently) {
    const tests::NoSound silence;
    Engine engine;
    engine.setRecording(clickingMinute());
    ASSERT_TRUE(soon([&] { return engine.device().state == DeviceState::Missing; }));
    EXPECT_NE(engine.device().message.find("no sound device"), std::string::npos) << engine.device().message;
    engine.play();
    EXPECT_TRUE(soon([&] { return engine.now().position > Frames(rate / 10); }));
    engine.useDevice({});
    EXPECT_TRUE(soon([&] { return engine.device().state == DeviceState::Missing; }));
}

TEST(OutputDevice, SurvivesASoundSystemWithoutConfiguration) {
    setenv("ALSA_CONFIG_PATH", "/nowhere/alsa.conf", 1);
    Engine engine;
    EXPECT_TRUE(soon([&] { return engine.device().state == DeviceState::Missing; }));
}

} // namespace
} // namespace earwright
