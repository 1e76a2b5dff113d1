#include "core/engine/Engine.h"

#include "tests/core/engine/HeldRecording.h"
#include "tests/core/engine/SilentEngine.h"
#include "tests/core/engine/Soon.h"

#include <chrono>
#include <cmath>
#include <functional>
#include <gtest/gtest.h>
#include <thread>

namespace earwright {
namespace {

using namespace std::chrono_literals;
using tests::SilentEngine;
using tests::soon;
using tests::silent_engine::at;
using tests::silent_engine::noteAt;
using tests::silent_engine::rate;

TEST_F(SilentEngine, StandsAtTheStartOfARecordingTakenIn) {
    EXPECT_FALSE(engine.now().playing);
    EXPECT_EQ(engine.now().position, Frames(0));
    EXPECT_EQ(engine.device().state, DeviceState::Closed);
}

TEST_F(SilentEngine, PlaysOnWithoutADeviceAndPausesWhereItIs) {
    engine.play();
    EXPECT_TRUE(engine.now().playing);
    EXPECT_TRUE(soon([&] { return engine.now().peak > 0.1f; }));
    ASSERT_TRUE(reaches(at(0.2)));
    engine.pause();
    std::this_thread::sleep_for(100ms);
    const Frames stopped = engine.now().position;
    std::this_thread::sleep_for(100ms);
    EXPECT_EQ(engine.now().position, stopped);
    EXPECT_LT(stopped, at(5));
}

TEST_F(SilentEngine, ShowsASoughtPlaceAtOnceWhileItStandsStill) {
    engine.seek(at(3));
    EXPECT_EQ(engine.now().position, at(3));
    std::this_thread::sleep_for(100ms);
    EXPECT_EQ(engine.now().position, at(3));
    engine.play();
    ASSERT_TRUE(reaches(at(3.1)));
    EXPECT_LT(engine.now().position, at(9));
}

TEST_F(SilentEngine, PlaysNothingOfTheOldPlaceWhenPlayFollowsASeek) {
    std::vector<float> samples(4 * rate, 0.0f);
    std::fill(samples.begin(), samples.begin() + rate, 0.5f); // loud at the start only
    engine.setRecording(tests::held(samples, rate));
    std::this_thread::sleep_for(50ms);
    engine.now();
    engine.seek(at(2));
    engine.play();
    ASSERT_TRUE(reaches(at(2.1)));
    EXPECT_LT(engine.now().peak, 1e-3f);
}

TEST_F(SilentEngine, KeepsThePlaceWhenSpeedAndPitchChange) {
    engine.seek(at(2));
    engine.play();
    ASSERT_TRUE(reaches(at(2.2)));
    Frames last = engine.now().position;
    for (const Playing& playing : {Playing{0.5, 0, 0}, Playing{0.5, 5, -30}, Playing{2.0, 0, 0}, Playing{}}) {
        engine.setPlaying(playing);
        for (int i = 0; i < 50; ++i) {
            std::this_thread::sleep_for(3ms);
            const Frames here = engine.now().position;
            // Never back by more than the jitter of joining lanes; never on by more than the time passed
            // allows.
            EXPECT_GE(here, last - at(0.002));
            last = std::max(last, here);
        }
    }
    EXPECT_LT(last, at(9.9));
}

TEST_F(SilentEngine, HoldsAPlaceWhileItStandsStillAndFallsSilentAgain) {
    engine.hold(at(3));
    EXPECT_TRUE(engine.now().holding);
    ASSERT_TRUE(soon([&] { return engine.now().peak > 0.1f && engine.now().position == at(3); }));
    engine.setPlaying({1.0, 3, 20});
    std::this_thread::sleep_for(100ms);
    EXPECT_EQ(engine.now().position, at(3));
    EXPECT_FALSE(engine.now().playing);
    engine.hold(std::nullopt);
    EXPECT_FALSE(engine.now().holding);
    EXPECT_TRUE(soon([&] { return engine.now().peak == 0.0f; }));
    EXPECT_EQ(engine.now().position, at(3));
}

TEST_F(SilentEngine, PlaysOnFromWhereItHeld) {
    engine.play();
    ASSERT_TRUE(reaches(at(0.1)));
    engine.hold(at(5));
    ASSERT_TRUE(soon([&] { return engine.now().position == at(5); }));
    std::this_thread::sleep_for(100ms);
    EXPECT_EQ(engine.now().position, at(5));
    EXPECT_TRUE(engine.now().playing);
    engine.hold(std::nullopt);
    EXPECT_TRUE(soon([&] { return engine.now().position > at(5.02); }));
    EXPECT_LT(engine.now().position, at(8));
}

TEST_F(SilentEngine, LetsGoOfWhatItHoldsWhenItIsToPlayStopOrGoElsewhere) {
    engine.hold(at(5));
    ASSERT_TRUE(soon([&] { return engine.now().position == at(5); }));
    engine.seek(at(2));
    EXPECT_FALSE(engine.now().holding);
    EXPECT_TRUE(soon([&] { return engine.now().position == at(2); }));
    engine.hold(at(4));
    ASSERT_TRUE(soon([&] { return engine.now().position == at(4); }));
    engine.play();
    EXPECT_FALSE(engine.now().holding);
    EXPECT_TRUE(reaches(at(4.05)));
    engine.hold(at(6));
    engine.pause();
    EXPECT_FALSE(engine.now().holding);
    EXPECT_FALSE(engine.now().playing);
}

TEST_F(SilentEngine, TellsWhatWasHeardInAnyFrame) {
    engine.setPlaying({0.5, 0, 0});
    engine.play();
    ASSERT_TRUE(reaches(at(0.2)));
    const OutputFrames frame = engine.heardFrame();
    const auto then = engine.heardAt(frame);
    ASSERT_TRUE(then.has_value());
    EXPECT_TRUE(then->playing);
    EXPECT_EQ(then->speed, 0.5);
    EXPECT_EQ(then->position, *engine.placeAt(frame));
}

TEST_F(SilentEngine, PlaysASliceOnceAndWaitsAtItsStart) {
    engine.setLoop(Range{at(1), at(2)});
    engine.playSlice({at(4), at(4.15)});
    EXPECT_TRUE(engine.now().playing);
    ASSERT_TRUE(soon([&] { return !engine.now().playing; }));
    ASSERT_TRUE(soon([&] { return engine.now().position == at(4); }));
    std::this_thread::sleep_for(80ms);
    EXPECT_EQ(engine.now().position, at(4));
    EXPECT_FALSE(engine.now().playing);
    engine.play();
    EXPECT_TRUE(reaches(at(4.3))) << "play goes on past the slice";
}

TEST_F(SilentEngine, StopsAtTheEndAndStartsOverFromThere) {
    engine.seek(at(9.9));
    engine.play();
    ASSERT_TRUE(soon([&] { return !engine.now().playing; }));
    ASSERT_TRUE(soon([&] { return engine.now().position == at(10); }));
    engine.play();
    ASSERT_TRUE(soon([&] { return engine.now().position < at(5); }));
    EXPECT_TRUE(reaches(at(0.1)));
}

TEST_F(SilentEngine, TakesInAnotherRecordingWhilePlaying) {
    engine.seek(at(5));
    engine.play();
    ASSERT_TRUE(reaches(at(5.1)));
    engine.setRecording(tests::held(std::vector<float>(96000, 0.1f), 48000, 2));
    EXPECT_FALSE(engine.now().playing);
    EXPECT_EQ(engine.now().position, Frames(0));
    engine.play();
    EXPECT_TRUE(soon([&] { return engine.now().position > Frames(4800); }));
    EXPECT_LT(engine.now().position, Frames(96001));
}

TEST_F(SilentEngine, TellsThePlaceOfAnyFrameThatWasHeard) {
    engine.setPlaying({0.5, 0, 0});
    engine.play();
    ASSERT_TRUE(reaches(at(0.2)));
    // 4,800 frames of the silent clock at 48 kHz are 0.1 s, at half speed 0.05 s of the recording.
    constexpr int window = 4800;
    const OutputFrames last = engine.heardFrame();
    const OutputFrames first = last - OutputFrames(window);
    const auto before = engine.placeAt(first);
    const auto after = engine.placeAt(last);
    int moving = 0;
    for (OutputFrames frame = first; frame < last; frame += OutputFrames(1)) {
        const auto then = engine.heardAt(frame);
        ASSERT_TRUE(then) << (last - frame).value;
        if (then->playing) ++moving;
    }
    ASSERT_TRUE(before && after);
    // On a busy machine the sound may run dry, which is counted; then the place stands still for as long.
    if (engine.device().underruns == 0) {
        EXPECT_EQ(moving, window);
    }
    EXPECT_NEAR(static_cast<double>((*after - *before).value), 0.05 * rate * moving / window, 2)
        << moving << " frames moving, " << engine.device().underruns << " underruns";
}

TEST_F(SilentEngine, StandsAnyValue) {
    engine.setPlaying({99, 77, -999});
    engine.setPlaying({-1, -77, 999});
    engine.setLevel(7);
    engine.setBalance(-900);
    engine.setLoop(Range{at(9), at(3)});
    engine.playSlice({at(9), at(3)});
    engine.seek(at(-4));
    EXPECT_EQ(engine.now().position, Frames(0));
    engine.seek(at(99));
    EXPECT_EQ(engine.now().position, at(10));
    engine.audition(500, 3);
    engine.play();
    std::this_thread::sleep_for(50ms);
}

TEST_F(SilentEngine, SurvivesAHailOfCommands) {
    engine.play();
    unsigned random = 5;
    for (int i = 0; i < 400; ++i) {
        random = random * 1664525u + 1013904223u;
        const double place = static_cast<double>(random >> 8) / 16777216.0 * 9;
        switch ((random >> 4) % 10) {
        case 0:
            engine.seek(at(place));
            break;
        case 1:
            engine.setPlaying({0.1 + place / 5, 0, 0});
            break;
        case 2:
            engine.setLoop(Range{at(place), at(place + 0.1)});
            break;
        case 3:
            engine.playSlice({at(place), at(place + 0.05)});
            break;
        case 4:
            engine.pause();
            break;
        case 5:
            engine.setNotes({noteAt(place)});
            break;
        case 6:
            engine.setLoopManner({i % 3, Climb{5, 1, 150}, {}, 0.4});
            break;
        case 7:
            engine.setCountIn(i % 2);
            engine.climbBack();
            break;
        case 8:
            engine.setHearing(i % 4 == 0 ? Hearing::Trade : Hearing::Record);
            break;
        default:
            engine.play();
            break;
        }
        const Frames here = engine.now().position;
        ASSERT_GE(here, Frames(0));
        ASSERT_LE(here, at(10));
        if (i % 20 == 0) std::this_thread::sleep_for(5ms);
    }
    engine.setLoop(std::nullopt);
    engine.setLoopManner({});
    engine.setCountIn(0);
    engine.setPlaying({});
    engine.seek(at(1));
    engine.play();
    EXPECT_TRUE(soon([&] {
        const Frames here = engine.now().position;
        return here > at(1.05) && here < at(3);
    }));
}

TEST(Engine, PlaysNothingWithoutARecording) {
    Engine engine(Engine::Options{{}, false});
    engine.play();
    engine.seek(Frames(100));
    engine.audition(60, 0.6);
    EXPECT_FALSE(engine.now().playing);
    EXPECT_TRUE(soon([&] { return engine.now().peak > 0.01f; })) << "the audition";
}

} // namespace
} // namespace earwright
