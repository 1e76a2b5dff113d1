// Devices and servers that go, hang and come back while the engine plays, judged by the sound that came out.
#include "core/engine/Engine.h"
#include "tests/core/engine/Landmarks.h"
#include "tests/core/engine/PrivateSound.h"
#include "tests/core/engine/Soon.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <gtest/gtest.h>
#include <thread>

namespace earwright {
namespace {

using namespace std::chrono_literals;
using tests::soon;
using Clock = std::chrono::steady_clock;
using tests::landmarks::Landmark;

constexpr int rate = tests::landmarks::rate;
constexpr long spacing = tests::landmarks::spacing;

class LosingDevice : public testing::Test {
protected:
    void SetUp() override {
        if (!tests::PrivateSound::isAvailable()) GTEST_SKIP() << "pulseaudio is not installed";
        start(false);
    }
    void start(bool hasOther) {
        engine.reset();
        sound.reset();
        sound = std::make_unique<tests::PrivateSound>(hasOther);
        // Enough in the device to stand a machine that is busy with other tests.
        engine = std::make_unique<Engine>(Engine::Options{{.latencySeconds = 0.2}, true});
        engine->setRecording(tests::landmarks::recording());
        ASSERT_TRUE(isIn(DeviceState::Running)) << engine->device().message;
        engine->setLoop(loop);
        engine->play();
        ASSERT_TRUE(movesOn());
    }
    bool isIn(DeviceState state) {
        return soon([&] { return engine->device().state == state; });
    }
    bool movesOn(double seconds = 0.2) {
        const Frames before = engine->now().position;
        return soon([&] { return engine->now().position > before + Frames(std::lround(seconds * rate)); });
    }
    /// Told in one line, playing on without it, and nothing of what was asked for is lost.
    void expectLost() {
        ASSERT_TRUE(isIn(DeviceState::Lost));
        const std::string message = engine->device().message;
        EXPECT_FALSE(message.empty());
        EXPECT_EQ(message.find('\n'), message.npos);
        EXPECT_TRUE(engine->now().playing);
        EXPECT_TRUE(movesOn());
    }
    /// The device is back, and what comes out of it is what the engine says is heard.
    void expectSoundInItsPlace() {
        ASSERT_TRUE(isIn(DeviceState::Running)) << engine->device().message;
        EXPECT_TRUE(engine->device().message.empty());
        sound->record();
        ASSERT_TRUE(movesOn(2.2));
        engine->pause();
        const auto last = static_cast<double>(engine->now().position.value);
        const std::vector<Landmark> heard = tests::landmarks::in(sound->recorded());
        ASSERT_GE(heard.size(), 2u) << "it is heard again";
        for (std::size_t i = 1; i < heard.size(); ++i) {
            EXPECT_EQ(heard[i].place - heard[i - 1].place, spacing);
            EXPECT_NEAR(static_cast<double>(heard[i].heard - heard[i - 1].heard), spacing, 0.1 * rate);
        }
        // Pairs come every half second and are half a second long at most; a busy machine is late.
        EXPECT_LT(static_cast<double>(heard.back().place), last + 0.3 * rate);
        EXPECT_GT(static_cast<double>(heard.back().place), last - 2.0 * rate);
    }

    const Range<Frames> loop{Frames(0), Frames(100 * rate)};
    std::unique_ptr<tests::PrivateSound> sound;
    std::unique_ptr<Engine> engine;
};

TEST_F(LosingDevice, GoesOnInItsPlaceAfterTheSinkWasUnloadedAndLoaded) {
    engine->seek(Frames(20 * rate));
    testing::internal::CaptureStderr();
    sound->removeSink();
    expectLost();
    sound->addSink();
    expectSoundInItsPlace();
    EXPECT_GT(engine->now().position, Frames(20 * rate));
    EXPECT_LT(engine->now().position, Frames(100 * rate));
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "") << "nothing is written to the terminal";
}

TEST_F(LosingDevice, GoesOnInItsPlaceAfterTheServerWasKilledAndStarted) {
    engine->seek(Frames(30 * rate));
    testing::internal::CaptureStderr();
    sound->kill();
    expectLost();
    sound->revive();
    expectSoundInItsPlace();
    EXPECT_GT(engine->now().position, Frames(30 * rate));
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "") << "nothing is written to the terminal";
}

TEST_F(LosingDevice, GoesOnInItsPlaceAfterTheServerHung) {
    engine->seek(Frames(40 * rate));
    sound->freeze();
    expectLost();
    sound->thaw();
    expectSoundInItsPlace();
    EXPECT_GT(engine->now().position, Frames(40 * rate));
}

TEST_F(LosingDevice, GoesOnInItsPlaceAfterAHangingServerWasKilledAndStarted) {
    sound->freeze();
    expectLost();
    sound->kill();
    sound->revive();
    expectSoundInItsPlace();
}

TEST_F(LosingDevice, TakesEveryWishWhileTheServerHangs) {
    sound->freeze();
    expectLost();
    const auto before = Clock::now();
    engine->useDevice({});
    engine->devices();
    engine->setPlaying({0.5, 0, 0});
    engine->seek(Frames(50 * rate));
    EXPECT_LT(Clock::now() - before, 10s) << "a call that waits does so until the server is thawed";
    ASSERT_TRUE(soon([&] { return engine->now().position >= Frames(50 * rate); }));
    EXPECT_TRUE(movesOn());
    engine->setPlaying({1.0, 0, 0});
    sound->thaw();
    expectSoundInItsPlace();
    EXPECT_GT(engine->now().position, Frames(50 * rate));
}

TEST_F(LosingDevice, EndsWhileTheServerHangs) {
    sound->freeze();
    expectLost();
    const auto before = Clock::now();
    engine.reset();
    EXPECT_LT(Clock::now() - before, 5s);
    sound->thaw();
    std::this_thread::sleep_for(200ms);
}

TEST_F(LosingDevice, TellsEverythingThatHappenedInItsEvents) {
    sound->removeSink();
    expectLost();
    sound->addSink();
    ASSERT_TRUE(isIn(DeviceState::Running));
    std::vector<DeviceState> states;
    for (const DeviceEvent& event : engine->device().events)
        if (states.empty() || states.back() != event.state) states.push_back(event.state);
    ASSERT_GE(states.size(), 3u);
    EXPECT_EQ(states[0], DeviceState::Running);
    EXPECT_EQ(states[1], DeviceState::Lost);
    EXPECT_EQ(states.back(), DeviceState::Running);
}

TEST_F(LosingDevice, KeepsMoreReadyAfterAGapAndSaysSo) {
    const DeviceReport before = engine->device();
    EXPECT_GT(before.latencySeconds, 0.1);
    // Shorter than what is taken for hanging, longer than what is in the device; on a busy machine it may
    // take longer than meant, and then the device is lost and found instead.
    const auto freezeBriefly = [&] {
        sound->freeze();
        std::this_thread::sleep_for(500ms);
        sound->thaw();
        return soon([&] { return engine->device().underruns > before.underruns; }, 2s);
    };
    bool isCounted = false;
    for (int i = 0; i < 8 && !isCounted; ++i)
        isCounted = freezeBriefly();
    ASSERT_TRUE(isCounted);
    ASSERT_TRUE(isIn(DeviceState::Running));
    EXPECT_TRUE(soon([&] { return engine->device().events.back().underruns > before.underruns; }));
    const DeviceReport after = engine->device();
    EXPECT_TRUE(after.grown);
    EXPECT_GT(after.bufferSeconds, before.bufferSeconds);
    expectSoundInItsPlace();
}

TEST_F(LosingDevice, MissesNothingWhenRateAndLatencyChangeWhileItPlays) {
    engine->pause();
    engine->setLoop(std::nullopt);
    // What was played before may be on its way out when recording begins: far from there it is told apart.
    const long first = 60L * rate;
    engine->seek(Frames(first - spacing / 2));
    sound->record();
    engine->play();
    ASSERT_TRUE(soon([&] { return engine->now().position > Frames(first + rate); }));
    engine->useDevice({.rateHertz = 48000, .latencySeconds = 0.3});
    ASSERT_TRUE(soon([&] { return engine->device().rateHertz == 48000; }));
    ASSERT_TRUE(isIn(DeviceState::Running));
    EXPECT_GT(engine->device().latencySeconds, 0.25);
    ASSERT_TRUE(movesOn(1.6));
    engine->useDevice({.latencySeconds = 0.2});
    ASSERT_TRUE(soon([&] { return engine->device().rateHertz == rate; }));
    ASSERT_TRUE(movesOn(1.6));
    engine->pause();
    std::this_thread::sleep_for(400ms);
    const long last = engine->now().position.value;
    const auto heard = sound->recorded();
    auto pairs = tests::landmarks::in(heard);
    std::erase_if(pairs, [&](const Landmark& pair) { return pair.place < first - spacing; });
    ASSERT_GE(pairs.size(), 4u);
    EXPECT_EQ(pairs.front().place, first);
    for (std::size_t i = 1; i < pairs.size(); ++i)
        EXPECT_GT(pairs[i].place, pairs[i - 1].place);
    EXPECT_GT(static_cast<double>(pairs.back().place), static_cast<double>(last) - 1.5 * rate);
    // The pause may fall on a click, and one at another rate is spread over two samples.
    const auto clicks = tests::landmarks::clicksIn(heard);
    EXPECT_NEAR(
        static_cast<double>(
            std::ranges::count_if(clicks, [&](long click) { return click >= pairs.front().heard; })),
        static_cast<double>(tests::landmarks::clicksBefore(last) - tests::landmarks::clicksBefore(first)),
        1.0);
}

TEST_F(LosingDevice, MovesToAnotherDeviceWhileItPlaysAndFindsItAgainByName) {
    start(true);
    std::vector<DeviceChoice> devices;
    ASSERT_TRUE(soon([&] {
        devices = engine->devices();
        return devices.size() == 2 && !devices.front().rates.empty() && !devices.back().rates.empty();
    })) << "both are listed with the rates they play at";
    const auto other = devices.front().name == "other" ? devices.front() : devices.back();
    ASSERT_EQ(other.name, "other");
    EXPECT_FALSE(other.isDefault);
    sound->record("test");
    ASSERT_TRUE(movesOn(1.3));
    sound->record("other");
    engine->useDevice({.index = other.index, .latencySeconds = 0.2});
    ASSERT_TRUE(soon([&] { return engine->device().name == "other"; }));
    ASSERT_TRUE(movesOn(1.6));
    const auto first = tests::landmarks::in(sound->recorded("test"));
    const auto second = tests::landmarks::in(sound->recorded("other"));
    ASSERT_FALSE(first.empty());
    ASSERT_FALSE(second.empty());
    // One pair may be half here, half there.
    EXPECT_LE(second.front().place - first.back().place, 2 * spacing);
    EXPECT_GT(second.front().place, first.back().place);

    sound->kill();
    expectLost();
    sound->revive();
    ASSERT_TRUE(isIn(DeviceState::Running));
    EXPECT_EQ(engine->device().name, "other");
}

TEST_F(LosingDevice, PlaysToTheDefaultWhereTheRememberedDeviceIsNotThere) {
    engine->useDevice({.latencySeconds = 0.2, .name = "stage box"});
    ASSERT_TRUE(soon([&] { return !engine->device().message.empty(); }));
    EXPECT_EQ(engine->device().state, DeviceState::Running);
    EXPECT_EQ(engine->device().name, "default");
    EXPECT_NE(engine->device().message.find("stage box"), std::string::npos) << engine->device().message;
    EXPECT_TRUE(movesOn());
}

TEST(OutputDevice, ConnectsByItselfWhenADeviceAppearsAfterTheStart) {
    if (!tests::PrivateSound::isAvailable()) GTEST_SKIP() << "pulseaudio is not installed";
    tests::PrivateSound sound;
    sound.kill();
    Engine engine;
    ASSERT_TRUE(soon([&] { return engine.device().state == DeviceState::Missing; }));
    sound.revive();
    EXPECT_TRUE(soon([&] { return engine.device().state == DeviceState::Running; }));
}

} // namespace
} // namespace earwright
