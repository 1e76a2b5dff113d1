// How the engine goes round: passes, gaps, count-ins, climbs and trades.
#include "core/engine/Engine.h"
#include "tests/core/engine/SilentEngine.h"
#include "tests/core/engine/Soon.h"

#include <chrono>
#include <gtest/gtest.h>
#include <thread>
#include <vector>

namespace earwright {
namespace {

using namespace std::chrono_literals;
using tests::SilentEngine;
using tests::soon;
using tests::silent_engine::at;

/// Its tests stand beside those of the engine that just plays.
class LoopingEngine : public SilentEngine {};

TEST_F(LoopingEngine, CountsThePassesOfALoop) {
    engine.setLoop(Range{at(1), at(1.1)});
    engine.play();
    ASSERT_TRUE(soon([&] { return engine.now().pass >= 3; }));
    const Frames here = engine.now().position;
    EXPECT_GE(here, at(1));
    EXPECT_LT(here, at(1.1));
    engine.setLoop(std::nullopt);
    EXPECT_TRUE(reaches(at(1.3)));
}

TEST_F(LoopingEngine, WidensALoopThatIsTooShort) {
    engine.setLoop(Range{at(1), at(1.001)});
    engine.play();
    ASSERT_TRUE(soon([&] { return engine.now().pass >= 2; }));
    EXPECT_GE(engine.now().position, at(1));
    EXPECT_LE(engine.now().position, at(1.051));
}

TEST_F(LoopingEngine, GoesOnWhenALoopEdgeMovesUnderIt) {
    engine.setLoop(Range{at(1), at(2)});
    engine.play();
    ASSERT_TRUE(reaches(at(1.2)));
    engine.setLoop(Range{at(1.1), at(2)});
    std::this_thread::sleep_for(100ms);
    EXPECT_TRUE(engine.now().playing);
    EXPECT_GE(engine.now().position, at(1.2));
    engine.setLoop(Range{at(5), at(6)});
    EXPECT_TRUE(reaches(at(5))) << "outside the new loop it goes to its start";
}

/// A beat every fifth of a second, four to a bar.
std::vector<BeatPlace> quickBeats() {
    std::vector<BeatPlace> beats;
    for (int beat = 0; beat < 50; ++beat)
        beats.push_back({at(0.2 * beat), beat % 4 == 0});
    return beats;
}

TEST_F(LoopingEngine, CountsFromZeroWhenAnotherLoopIsSet) {
    engine.setLoop(Range{at(1), at(1.1)});
    engine.play();
    ASSERT_TRUE(soon([&] { return engine.now().pass >= 3; }));
    engine.setLoop(Range{at(1), at(6)});
    for (int i = 0; i < 20; ++i) {
        ASSERT_EQ(engine.now().pass, 0) << "not the old count";
        std::this_thread::sleep_for(2ms);
    }
}

TEST_F(LoopingEngine, CountsInBeforeItPlays) {
    engine.setBeats(quickBeats());
    engine.setCountIn(4);
    engine.seek(at(2));
    engine.play();
    const Heard counting = heard([](const Heard& now) { return now.stage == Stage::CountIn; });
    EXPECT_TRUE(counting.playing);
    EXPECT_EQ(counting.position, at(2));
    EXPECT_GE(counting.beatsLeft, 1);
    EXPECT_LE(counting.beatsLeft, 4);
    ASSERT_TRUE(soon([&] { return engine.now().peak > 0.2f; })) << "the clicks";
    ASSERT_TRUE(reaches(at(2.05)));
    EXPECT_EQ(engine.now().stage, Stage::Sounding);
    EXPECT_EQ(engine.now().beatsLeft, 0);
    // Pressed again while it plays, it just plays on.
    engine.play();
    std::this_thread::sleep_for(80ms);
    EXPECT_EQ(engine.now().stage, Stage::Sounding);
}

TEST_F(LoopingEngine, WaitsAtTheLoopsStartInAGap) {
    engine.setBeats(quickBeats());
    engine.setLoopManner({2, {}, {}, {}});
    engine.setLoop(Range{at(1), at(1.4)});
    engine.play();
    const Heard waiting = heard([](const Heard& now) { return now.stage == Stage::Gap; });
    EXPECT_EQ(waiting.position, at(1));
    EXPECT_GE(waiting.pass, 1);
    EXPECT_GE(waiting.beatsLeft, 1);
    EXPECT_LE(waiting.beatsLeft, 2);
    ASSERT_TRUE(soon([&] { return engine.now().stage == Stage::Sounding; }));
    // A gap of none ends the one that has begun with the next pass at the latest.
    engine.setLoopManner({});
    ASSERT_TRUE(soon([&] { return engine.now().pass >= 3; }));
}

TEST_F(LoopingEngine, ClimbsAndTakesTheSpeedItToldForNoChange) {
    engine.setLoop(Range{at(1), at(1.1)});
    engine.setPlaying({0.8, 0, 0});
    EXPECT_EQ(engine.now().speed, 0.8) << "at once, before it is heard";
    engine.setLoopManner({0, Climb{10, 4, 100}, {}, {}});
    engine.play();
    ASSERT_TRUE(soon([&] {
        const Heard now = engine.now();
        engine.setPlaying({now.reachedSpeed, 0, 0});
        return now.speed == 1.0;
    }));
    engine.climbBack();
    ASSERT_TRUE(soon([&] { return engine.now().speed == 0.9; }));
    ASSERT_TRUE(soon([&] { return engine.now().speed == 1.0; }));
}

TEST_F(LoopingEngine, TellsEachTurnOfTheTradeWithItsSpeed) {
    engine.setLoop(Range{at(1), at(1.2)});
    engine.setLoopManner({0, {}, 1.0, 0.6});
    engine.setHearing(Hearing::Trade);
    engine.play();
    // A busy machine may answer late, and a turn then begins at the speed of the one before.
    for (int turn = 0; turn < 2; ++turn) {
        const Heard yours = heard([](const Heard& now) { return now.yoursTurn && now.speed == 0.6; });
        EXPECT_EQ(yours.pass % 2, 1) << "after the record's";
        EXPECT_EQ(yours.reachedSpeed, 1.0);
        const Heard record = heard([](const Heard& now) { return !now.yoursTurn && now.speed == 1.0; });
        EXPECT_EQ(record.pass % 2, 0);
        EXPECT_EQ(record.reachedSpeed, 1.0);
    }
}

} // namespace
} // namespace earwright
