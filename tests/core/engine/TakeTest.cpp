// Playing along, from the input device to the file and back into the sound: through a real device whose
// monitor is the input, so that the take is the record itself and has to fall on it.
#include "core/engine/Engine.h"
#include "core/engine/Input.h"
#include "tests/core/engine/HeldRecording.h"
#include "tests/core/engine/PrivateSound.h"
#include "tests/core/engine/Soon.h"
#include "tests/core/engine/WithoutGaps.h"

#include <chrono>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <string>
#include <thread>

namespace earwright {
namespace {

using namespace std::chrono_literals;
using tests::soon;

constexpr int rate = 44100;

/// A click every half second.
std::shared_ptr<Recording> clickingMinute() {
    std::vector<float> samples(60 * rate, 0.0f);
    for (std::size_t i = rate / 2; i < samples.size(); i += rate / 2)
        samples[i] = 0.7f;
    return tests::held(samples, rate);
}

/// Milliseconds by which a take may lie off. Input and output clock are each known with a deviation of 0.2 ms
/// where reports jitter by 5 ms (StreamClockTest), and the round trip is a mean of three differences of them:
/// together 0.33 ms, four deviations 1.3. The rest is what the server reports wrongly. Seen: 0.2 to 1.2 ms,
/// and once 2.6 where the machine was busy.
constexpr double placedWithin = 2.0;

#define SKIP_WHERE_THE_MACHINE_IS_TOO_BUSY                                                                   \
    GTEST_SKIP() << "the machine is too busy: " << engine->device().underruns << " gaps"

class PlayingAlong : public testing::Test {
protected:
    void SetUp() override {
        if (!tests::PrivateSound::isAvailable()) GTEST_SKIP() << "pulseaudio is not installed";
        sound = std::make_unique<tests::PrivateSound>();
        Engine::Options options;
        options.device.latencySeconds = 0.2;
        engine = std::make_unique<Engine>(options);
        engine->setRecording(clickingMinute());
        ASSERT_TRUE(soon([&] { return engine->device().state == DeviceState::Running; }));
        engine->input().open({});
        ASSERT_TRUE(soon([&] { return engine->input().report().state == DeviceState::Running; }))
            << engine->input().report().message;
        std::string pattern = (std::filesystem::temp_directory_path() / "earwright-takes-XXXXXX").string();
        ASSERT_TRUE(mkdtemp(pattern.data()));
        folder = pattern;
    }
    void TearDown() override {
        engine.reset();
        std::error_code ignored;
        if (!folder.empty()) std::filesystem::remove_all(folder, ignored);
    }

    /// False where the machine is so busy that marks come back at different times, or sound has gaps while
    /// they are played, again and again.
    bool canMeasure() {
        for (int attempt = 0; attempt < 3; ++attempt) {
            const int before = engine->device().underruns;
            engine->input().measureRoundTrip();
            EXPECT_TRUE(soon([&] { return !engine->input().roundTrip().isRunning; }));
            const std::string message = engine->input().roundTrip().message;
            EXPECT_TRUE(message.empty() || tests::cameBackAtDifferentTimes(message)) << message;
            if (message.empty() && engine->device().underruns == before) return true;
        }
        return false;
    }
    /// Returns when the place played before is no longer what is heard.
    void playFrom(double seconds) {
        const Frames from(std::lround(seconds * rate));
        engine->seek(from);
        engine->play();
        ASSERT_TRUE(soon([&] {
            const Frames here = engine->now().position;
            return here >= from && here < from + Frames(rate);
        }));
    }
    void reach(double seconds) {
        ASSERT_TRUE(soon([&] { return engine->now().position >= Frames(std::lround(seconds * rate)); }));
    }
    std::vector<RecordedTake> stopped() {
        engine->input().stopRecording();
        EXPECT_TRUE(soon([&] { return !engine->input().recording().isRunning; }));
        return engine->input().finishedTakes();
    }
    /// How far from a half second of the recording the clicks of a take are, in milliseconds of listening;
    /// the largest.
    static double worstOff(const RecordedTake& take, std::size_t& clicks) {
        const auto file = Recording::open(take.file);
        EXPECT_TRUE(file.ok());
        const auto wide = static_cast<std::size_t>((*file)->channels());
        const auto count = static_cast<std::size_t>(take.part.length().value);
        std::vector<float> samples(count * wide);
        (*file)->read(take.part.begin, samples);
        double worst = 0;
        clicks = 0;
        for (std::size_t i = 0; i < count; ++i) {
            if (std::abs(samples[i * wide]) < 0.2f) continue;
            const double place = static_cast<double>(take.at.value) / rate +
                                 static_cast<double>(i) * take.speed / (*file)->rate().hertz;
            worst = std::max(worst, std::abs(place - std::round(2 * place) / 2) / take.speed * 1000);
            ++clicks;
            i += static_cast<std::size_t>((*file)->rate().hertz / 20);
        }
        return worst;
    }

    std::unique_ptr<tests::PrivateSound> sound;
    std::unique_ptr<Engine> engine;
    std::filesystem::path folder;
};

TEST_F(PlayingAlong, KeepsTheTakeWhereTheRecordWasHeard) {
    if (!canMeasure()) SKIP_WHERE_THE_MACHINE_IS_TOO_BUSY;
    std::vector<RecordedTake> takes;
    int attempt = 0;
    const auto playAlong = [&] {
        const std::string name = std::to_string(++attempt) + ".wav";
        engine->input().record(folder / "evening" / name, SampleRate{rate});
        playFrom(2);
        reach(5.2);
        engine->pause();
        takes = stopped();
    };
    if (!tests::heardWithoutGaps(*engine, playAlong)) SKIP_WHERE_THE_MACHINE_IS_TOO_BUSY;
    ASSERT_EQ(takes.size(), 1u) << engine->input().recording().message;
    EXPECT_DOUBLE_EQ(takes[0].speed, 1.0);
    std::size_t clicks = 0;
    const double off = worstOff(takes[0], clicks);
    std::printf("take off by %.3f ms at most, %zu clicks\n", off, clicks);
    EXPECT_GE(clicks, 5u);
    EXPECT_LT(off, placedWithin);

    // Heard against the record, one ear each.
    const auto file = Recording::open(takes[0].file);
    ASSERT_TRUE(file.ok());
    engine->setTake(TakePlayback{*file, takes[0].part, takes[0].at, takes[0].speed, takes[0].semitones});
    engine->setHearing(Hearing::Split);
    std::vector<float> heard;
    const auto listen = [&] {
        sound->record();
        playFrom(2);
        reach(4.8);
        engine->pause();
        heard = sound->recorded();
    };
    if (!tests::heardWithoutGaps(*engine, listen)) SKIP_WHERE_THE_MACHINE_IS_TOO_BUSY;
    // The take is brought to the record's loudness, so each ear has a measure of its own.
    float loudest[2] = {};
    for (std::size_t i = 0; i < heard.size(); ++i)
        loudest[i % 2] = std::max(loudest[i % 2], std::abs(heard[i]));
    EXPECT_GT(loudest[1], 0.02f);
    int compared = 0;
    for (std::size_t i = 0; 2 * i < heard.size(); ++i) {
        if (std::abs(heard[2 * i]) < 0.4f * loudest[0]) continue;
        double nearest = 1e9;
        for (std::size_t k = i > 4410 ? i - 4410 : 0; 2 * k + 1 < heard.size() && k < i + 4410; ++k)
            if (std::abs(heard[2 * k + 1]) > 0.4f * loudest[1])
                nearest = std::min(nearest,
                                   std::abs(static_cast<double>(k) - static_cast<double>(i)) / rate * 1000);
        // The first clicks may come before the take.
        if (nearest < 1e8) {
            EXPECT_LT(nearest, placedWithin) << "ms between left and right";
            ++compared;
        }
        i += rate / 20;
    }
    EXPECT_GE(compared, 3);
}

TEST_F(PlayingAlong, MakesATakeOfEachPassAtTheSpeedHeard) {
    if (!canMeasure()) SKIP_WHERE_THE_MACHINE_IS_TOO_BUSY;
    engine->setPlaying({0.8, 0, 0});
    // 1.2 s of the recording, 1.5 s of listening, two clicks.
    engine->setLoop(Range{Frames(4 * rate + 4410), Frames(4 * rate + 4410 + 52920)});
    std::vector<RecordedTake> takes;
    int attempt = 0;
    const auto goRound = [&] {
        takes.clear();
        engine->seek(Frames(4 * rate + 4410));
        engine->input().record(folder / ("loop" + std::to_string(++attempt) + ".wav"), SampleRate{rate});
        engine->play();
        const auto hasThree = [&] {
            for (auto& take : engine->input().finishedTakes())
                takes.push_back(take);
            return takes.size() >= 3;
        };
        ASSERT_TRUE(soon(hasThree, 30s)) << "passes are there while the next is played";
        engine->pause();
        stopped();
    };
    if (!tests::heardWithoutGaps(*engine, goRound)) SKIP_WHERE_THE_MACHINE_IS_TOO_BUSY;
    int whole = 0;
    for (const RecordedTake& take : takes) {
        EXPECT_NEAR(take.speed, 0.8, 1e-9);
        if (!take.isWholePass) continue;
        ++whole;
        // The first pass lacks the moment until the player is going; 30 ms at most.
        EXPECT_NEAR(static_cast<double>(take.at.value), 4 * rate + 4410, 0.03 * rate);
        std::size_t clicks = 0;
        // The record itself jitters by up to 3 ms at this speed, on top.
        EXPECT_LT(worstOff(take, clicks), placedWithin + 3.0);
        EXPECT_EQ(clicks, 2u);
    }
    EXPECT_GE(whole, 2);
}

TEST_F(PlayingAlong, KeepsWhatWasPlayedUntilTheInputWent) {
    engine->input().record(folder / "cut.wav", SampleRate{rate});
    engine->seek(Frames(0));
    engine->play();
    reach(2);
    sound->kill();
    ASSERT_TRUE(soon([&] { return !engine->input().recording().isRunning; }));
    EXPECT_NE(engine->input().recording().message.find("kept"), std::string::npos);
    const auto takes = engine->input().finishedTakes();
    ASSERT_GE(takes.size(), 1u);
    const auto file = Recording::open(folder / "cut.wav");
    ASSERT_TRUE(file.ok());
    EXPECT_GT((*file)->duration().value, 1.5);
}

TEST_F(PlayingAlong, ReadsTheFileWhileItIsStillGrowing) {
    engine->input().record(folder / "growing.wav", SampleRate{rate});
    engine->seek(Frames(0));
    engine->play();
    ASSERT_TRUE(soon([&] { return engine->input().recording().seconds > 1; }));
    // As after a crash: nobody has finished it.
    const auto file = Recording::open(folder / "growing.wav");
    ASSERT_TRUE(file.ok());
    EXPECT_GT((*file)->duration().value, 0.9);
    stopped();
}

TEST_F(PlayingAlong, SaysWhyNothingCanBeKept) {
    { std::ofstream(folder / "there.wav") << "x"; }
    engine->input().record(folder / "there.wav", SampleRate{rate});
    ASSERT_TRUE(soon([&] { return !engine->input().recording().isRunning; }));
    EXPECT_NE(engine->input().recording().message.find("there.wav"), std::string::npos);
    EXPECT_EQ(std::filesystem::file_size(folder / "there.wav"), 1u) << "and leaves what is there alone";
}

TEST_F(PlayingAlong, IsHeardInTheOutputOnlyWhenAsked) {
    // With the monitor as the input, what is heard comes round again: an echo tells that monitoring is on.
    engine->input().setMonitorLevel(0.5);
    engine->seek(Frames(0));
    sound->record();
    engine->play();
    reach(1.3);
    engine->input().setMonitor(true);
    reach(2.9);
    engine->input().setMonitor(false);
    engine->pause();
    const std::vector<float> heard = sound->recorded();
    std::vector<long> loud;
    for (std::size_t i = 0; 2 * i < heard.size(); ++i) {
        if (std::abs(heard[2 * i]) < 0.5f) continue;
        loud.push_back(static_cast<long>(i));
        i += rate / 10;
    }
    ASSERT_GE(loud.size(), 5u);
    const auto echo = [&](long click) {
        float most = 0;
        for (long k = click + 441;
             k < click + rate * 45 / 100 && 2 * static_cast<std::size_t>(k) < heard.size(); ++k)
            most = std::max(most, std::abs(heard[2 * static_cast<std::size_t>(k)]));
        return most;
    };
    EXPECT_LT(echo(loud[0]), 0.01f);
    // How much of a click of one sample survives the bridge between two clocks varies; 0.09 was seen. On a
    // crowded machine the bridge may need more than the first click after it was asked for.
    float loudestEcho = 0;
    for (std::size_t i = 2; i < loud.size(); ++i)
        loudestEcho = std::max(loudestEcho, echo(loud[i]));
    EXPECT_GT(loudestEcho, 0.05f);
}

} // namespace
} // namespace earwright
