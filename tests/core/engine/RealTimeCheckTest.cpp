// All ways of listening, through the mixer that every callback calls. In a build with
// EARWRIGHT_SANITIZE=realtime an allocation, a lock or a wait in there ends the test with a report; elsewhere
// it shows that none of the changes silences or stops the sound.
#include "core/engine/Engine.h"
#include "core/engine/RealTimeSpan.h"
#include "tests/core/engine/HeldRecording.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <functional>
#include <gtest/gtest.h>
#include <mutex>
#include <thread>
#include <vector>

namespace earwright {
namespace {

using namespace std::chrono_literals;

std::shared_ptr<Recording> twoTones() {
    std::vector<float> samples(2 * 8 * 44100);
    for (std::size_t i = 0; i < samples.size() / 2; ++i) {
        const double t = static_cast<double>(i) / 44100;
        samples[2 * i] = static_cast<float>(0.3 * std::sin(2 * M_PI * 330 * t));
        samples[2 * i + 1] = static_cast<float>(0.3 * std::sin(2 * M_PI * 495 * t));
    }
    return tests::held(std::move(samples), 44100, 2);
}

/// Ended after ten seconds at most, however busy the machine is.
bool sounds(Engine& engine) {
    const auto latest = std::chrono::steady_clock::now() + 10s;
    engine.now();
    while (std::chrono::steady_clock::now() < latest) {
        std::this_thread::sleep_for(60ms);
        if (engine.now().peak > 0.01f) return true;
    }
    return false;
}

TEST(RealTimeCheck, AllWaysOfListeningSoundOneAfterTheOther) {
    Engine::Options options;
    options.openDevice = false;
    Engine engine(options);
    engine.setRecording(twoTones());
    std::vector<TimedNote> notes;
    std::vector<BeatPlace> beats;
    for (int i = 0; i < 14; ++i) {
        TimedNote note;
        note.onset = Frames(i * 22050);
        note.end = Frames(i * 22050 + 20000);
        note.midi = 60 + i;
        notes.push_back(note);
        beats.push_back({Frames(i * 22050), i % 4 == 0});
    }
    engine.setNotes(notes);
    engine.setBeats(beats);
    LoopManner manner;
    manner.gapBeats = 1;
    const TakePlayback take{twoTones(), {Frames(0), Frames(8 * 44100)}, Frames(0), 0.9, 0};
    const std::vector<std::pair<const char*, std::function<void()>>> changes{
        {"play", [&] { engine.play(); }},
        {"half speed",
         [&] {
             engine.setPlaying({0.5, 0, 0});
         }},
        {"transposed and fast",
         [&] {
             engine.setPlaying({1.5, 3, 20});
         }},
        {"loop",
         [&] {
             engine.setLoop(Range{Frames(44100), Frames(66150)});
         }},
        {"loop with a gap", [&] { engine.setLoopManner(manner); }},
        {"a climb",
         [&] {
             engine.setLoopManner({0, Climb{5, 1, 180}, {}, {}});
         }},
        {"a wish on the climb",
         [&] {
             engine.setPlaying({1.2, 1, 0});
         }},
        {"a step back", [&] { engine.climbBack(); }},
        {"loop without a gap", [&] { engine.setLoopManner({}); }},
        {"together", [&] { engine.setHearing(Hearing::Together); }},
        {"trade", [&] { engine.setHearing(Hearing::Trade); }},
        {"each turn at its own speed",
         [&] {
             engine.setLoopManner({0, {}, 1.0, 0.6});
         }},
        {"a take in turns", [&] { engine.setTake(take); }},
        {"split", [&] { engine.setHearing(Hearing::Split); }},
        {"yours", [&] { engine.setHearing(Hearing::Yours); }},
        {"the notes again",
         [&] {
             engine.setTake(std::nullopt);
             engine.setLoopManner({});
         }},
        {"record", [&] { engine.setHearing(Hearing::Record); }},
        {"left alone", [&] { engine.setFocus(Focus::Left); }},
        {"sides", [&] { engine.setFocus(Focus::Sides); }},
        {"a band",
         [&] {
             engine.setBand(Band{200, 2000, false});
         }},
        {"the rest of it",
         [&] {
             engine.setBand(Band{1000, 2000, true});
         }},
        {"everything",
         [&] {
             engine.setBand(std::nullopt);
             engine.setFocus(Focus::All);
         }},
        {"clicks",
         [&] {
             engine.setClicks(true);
             engine.setClickLevel(-6);
         }},
        {"balance and tuning",
         [&] {
             engine.setBalance(6);
             engine.setTuning(12);
         }},
        {"another list",
         [&] {
             engine.setNotes({});
             engine.setNotes(notes);
         }},
        {"an audition", [&] { engine.audition(64, 0.8); }},
        {"a hold", [&] { engine.hold(Frames(50000)); }},
        {"let go",
         [&] {
             engine.hold(std::nullopt);
             engine.play();
         }},
        {"no loop, elsewhere",
         [&] {
             engine.setLoop(std::nullopt);
             engine.seek(Frames(22050));
         }},
        {"a slice",
         [&] {
             engine.playSlice({Frames(88200), Frames(200000)});
         }},
        {"with a count-in",
         [&] {
             engine.pause();
             engine.setCountIn(2);
             engine.play();
         }},
    };
    for (const auto& [name, change] : changes) {
        change();
        EXPECT_TRUE(sounds(engine)) << name;
    }
}

#ifdef EARWRIGHT_REALTIME_CHECK

TEST(RealTimeCheckDeathTest, EndsWhereSomethingAllocates) {
    EXPECT_DEATH(
        {
            const RealTimeSpan realTime;
            std::vector<int> taken(1000, 1);
            std::fprintf(stderr, "%d\n", taken[500]);
        },
        "Real-time violation");
}

TEST(RealTimeCheckDeathTest, EndsWhereSomethingLocks) {
    std::mutex guard;
    EXPECT_DEATH(
        {
            const RealTimeSpan realTime;
            const std::lock_guard lock(guard);
        },
        "Real-time violation");
}

#endif

} // namespace
} // namespace earwright
