// How soon a wish is heard, whatever the end of a pass brings.
#include "core/engine/LaneWork.h"
#include "core/engine/LoopSeam.h"
#include "tests/core/engine/RenderedEngine.h"
#include "tests/core/engine/ToneWithBeats.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <memory>

namespace earwright {
namespace {

using tests::RenderedEngine;
using tests::tone_with_beats::beats;
using tests::tone_with_beats::rate;
using tests::tone_with_beats::tone;

constexpr Range<Frames> loop{Frames(44100), Frames(44100 + 22050)};

/// A loop of half a second, its passes as the manner says, up to so many frames before the first one ends.
std::unique_ptr<RenderedEngine> shortlyBefore(std::int64_t frames, double speed, const LoopManner& manner) {
    auto engine = std::make_unique<RenderedEngine>(tone(), rate);
    engine->replan([&](Wanted& wanted) {
        wanted.beats = beatListOf(beats());
        wanted.speeds.setManner(manner);
    });
    engine->loopFromStart(loop, speed);
    engine->render(std::llround(22050 / speed) - frames);
    return engine;
}

/// Frames from one until what sounds answers the wish made there: 10 ms of fade are not waited for. A lane
/// that takes over where a pass begins at another speed sounds for two fades before it counts as heard.
template <class Answers>
std::int64_t framesUntil(const RenderedEngine& engine, std::int64_t from, Answers&& answers) {
    std::int64_t frame = from;
    while (frame < engine.rendered() && !answers(engine.segmentAt(frame)))
        ++frame;
    const auto& starts = engine.passStarts();
    const bool isAtSeam = std::ranges::find(starts, frame) != starts.end();
    const bool isGap = engine.segmentAt(frame).leadStage == Stage::Gap;
    const std::int64_t fadedIn = isAtSeam && !isGap ? 2 * rate.outputFrames(LoopSeam::fadeSeconds).value : 0;
    return frame - from - fadedIn;
}

/// Speed, transposition and what else is not a place: 60 ms, whatever the end of the pass brings.
constexpr std::int64_t soon = 60 * 44100 / 1000;
/// Seeks and changes of the loop: 40 ms.
constexpr std::int64_t atOnce = 40 * 44100 / 1000;

TEST(LaneAnswer, AnswersAWishInTimeHoweverSoonAGapBegins) {
    for (std::int64_t before = 128; before <= 5120; before += 128) {
        const auto engine = shortlyBefore(before, 1.0, {1, {}, {}, {}});
        const std::int64_t wished = engine->rendered();
        engine->wish([](Wanted& wanted) { wanted.playing.semitones = 1; });
        engine->render(22050);
        const auto isAnswered = [](const HeardSegment& heard) {
            return heard.semitones == 1 || heard.leadStage == Stage::Gap;
        };
        EXPECT_LE(framesUntil(*engine, wished, isAnswered), soon) << before << " frames before the gap";
        ASSERT_EQ(engine->passStarts().size(), 1u);
        EXPECT_NEAR(static_cast<double>(engine->passStarts()[0]), 22050, 1) << before;
        EXPECT_EQ(engine->segmentAt(engine->passStarts()[0] + 8000).leadStage, Stage::Gap) << before;
        EXPECT_EQ(engine->mixer->underruns(), 0);
    }
}

TEST(LaneAnswer, AnswersAWishInTimeAndGivesTheNextPassItsSpeedHoweverSoonItBegins) {
    for (std::int64_t before = 128; before <= 5120; before += 256) {
        const auto engine = shortlyBefore(before, 0.5, {0, Climb{10, 1, 70}, {}, {}});
        const std::int64_t wished = engine->rendered();
        engine->wish([](Wanted& wanted) { wanted.playing.semitones = 1; });
        engine->render(12000);
        const auto isAnswered = [](const HeardSegment& heard) { return heard.semitones == 1; };
        EXPECT_LE(framesUntil(*engine, wished, isAnswered), soon) << before << " frames before the seam";
        ASSERT_EQ(engine->passStarts().size(), 1u);
        EXPECT_NEAR(static_cast<double>(engine->passStarts()[0]), 44100, 1) << before;
        // Where the end was less than 30 ms away, its last 4 ms may still be as they were.
        for (const std::int64_t into : {180, 2000, 6000})
            EXPECT_EQ(engine->segmentAt(engine->passStarts()[0] + into).speed, 0.6) << before << ", " << into;
        EXPECT_EQ(engine->mixer->underruns(), 0);
    }
}

TEST(LaneAnswer, StepsBackInTimeHoweverSoonTheClimbGoesOn) {
    for (std::int64_t before = 128; before <= 5120; before += 512) {
        const auto engine = shortlyBefore(before, 0.5, {0, Climb{10, 1, 70}, {}, {}});
        const std::int64_t wished = engine->rendered();
        engine->replan([](Wanted& wanted) { wanted.speeds.climbBack(); });
        engine->render(12000);
        // A step slower than the pass that sounds; or what it has climbed to, counted anew, in the next.
        const auto isAnswered = [](const HeardSegment& heard) {
            return heard.speed < 0.45 || (heard.speed < 0.55 && heard.tags.passAt(0) == 1);
        };
        EXPECT_LE(framesUntil(*engine, wished, isAnswered), soon) << before << " frames before the seam";
    }
}

TEST(LaneAnswer, SeeksAndChangesTheLoopAtOnceHoweverSoonAGapBegins) {
    for (std::int64_t before = 128; before <= 5120; before += 512) {
        const auto seeking = shortlyBefore(before, 1.0, {1, {}, {}, {}});
        std::int64_t wished = seeking->rendered();
        seeking->wish([](Wanted& wanted) { wanted.jump = Frames(50000); });
        seeking->render(4410);
        EXPECT_LE(framesUntil(*seeking, wished,
                              [](const HeardSegment& heard) { return heard.tags.start() == 50000; }),
                  atOnce)
            << before << " frames before the gap";
        const auto looping = shortlyBefore(before, 1.0, {1, {}, {}, {}});
        wished = looping->rendered();
        looping->wish([](Wanted& wanted) {
            wanted.loop = Range{Frames(88200), Frames(99225)};
            wanted.restartPasses = true;
        });
        looping->render(4410);
        EXPECT_LE(framesUntil(*looping, wished,
                              [](const HeardSegment& heard) { return heard.tags.start() == 88200; }),
                  atOnce)
            << before << " frames before the gap";
    }
}

TEST(LaneAnswer, GoesOnFromASeekAlsoWhereThePauseFellIntoAFade) {
    for (std::int64_t after = 1280; after <= 1792; after += 128) {
        RenderedEngine engine(tone(), rate);
        engine.loopFromStart(loop, 0.8);
        engine.render(10240);
        engine.wish([](Wanted& wanted) { wanted.playing.semitones = 1; });
        engine.render(after);
        engine.mixer->setPlaying(false);
        engine.render(2048);
        engine.wish([](Wanted& wanted) { wanted.jump = Frames(50000); });
        engine.render(512);
        engine.play();
        engine.render(512);
        EXPECT_NEAR(engine.placeAt(engine.rendered() - 1), 50000 + 512 * 0.8, 130) << after;
    }
}

} // namespace
} // namespace earwright
