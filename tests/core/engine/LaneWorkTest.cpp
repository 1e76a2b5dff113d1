#include "core/engine/LaneWork.h"

#include "tests/core/engine/HeldRecording.h"
#include "tests/core/engine/RenderedEngine.h"
#include "tests/core/engine/ToneWithBeats.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <span>

namespace earwright {
namespace {

using tests::RenderedEngine;
using tests::tone_with_beats::beats;
using tests::tone_with_beats::rate;
using tests::tone_with_beats::tone;

constexpr Range<Frames> loop{Frames(44100), Frames(44100 + 22050)};

/// Frames an output frame of the pass that begins there.
double speedOf(const RenderedEngine& engine, std::int64_t frame) {
    return engine.segmentAt(frame).speed;
}

TEST(LaneWork, ClimbsExactlyWhereAPassBegins) {
    RenderedEngine engine(tone(), rate);
    engine.replan([](Wanted& wanted) { wanted.speeds.setManner({0, Climb{10, 2, 70}, {}, {}}); });
    engine.loopFromStart(loop, 0.5);
    engine.render(6 * rate.hertz);
    // Two passes each at 50 and 60 %, then all at 70 %.
    const auto& starts = engine.passStarts();
    ASSERT_GE(starts.size(), 6u);
    const double speeds[] = {0.5, 0.5, 0.6, 0.6, 0.7, 0.7};
    std::int64_t began = starts[0] - 44100;
    for (std::size_t pass = 0; pass < 6; ++pass) {
        EXPECT_EQ(speedOf(engine, starts[pass] - 1), speeds[pass]) << pass;
        // The first output frame at or after B.
        EXPECT_NEAR(static_cast<double>(starts[pass] - began), 22050 / speeds[pass], 1.0) << pass;
        EXPECT_GE(engine.placeAt(starts[pass]), 44100.0);
        EXPECT_LT(engine.placeAt(starts[pass]), 44101.0);
        began = starts[pass];
    }
    EXPECT_EQ(engine.mixer->underruns(), 0);
}

TEST(LaneWork, LeavesAGapOfBeatsInTheSpeedHeard) {
    for (const double speed : {0.25, 0.5, 1.0, 1.37, 2.0}) {
        RenderedEngine engine(tone(), rate);
        engine.replan([](Wanted& wanted) {
            wanted.beats = beatListOf(beats());
            wanted.speeds.setManner({3, {}, {}, {}});
        });
        engine.loopFromStart(loop, speed);
        const auto pass = static_cast<std::int64_t>(std::ceil(22050 / speed - 1e-6));
        const std::int64_t gap = std::llround(3 * 22050 / speed);
        engine.render(static_cast<std::int64_t>(2.2 * static_cast<double>(pass + gap)));
        const auto& starts = engine.passStarts();
        ASSERT_EQ(starts.size(), 2u);
        EXPECT_EQ(starts[1] - starts[0], pass + gap) << speed;
        for (std::int64_t frame = starts[0]; frame < starts[0] + gap - 442; ++frame)
            ASSERT_EQ(engine.left()[static_cast<std::size_t>(frame)], 0.0f) << speed << ", " << frame;
        // The gap stands at A; there the record goes on.
        EXPECT_EQ(engine.segmentAt(starts[0] + gap / 2).leadStage, Stage::Gap);
        EXPECT_NEAR(engine.placeAt(starts[0] + gap / 2), 44100, 1);
        EXPECT_NEAR(engine.placeAt(starts[0] + gap + 1000), 44100 + 1000 * speed, 1);
        EXPECT_EQ(engine.mixer->underruns(), 0);
    }
}

TEST(LaneWork, LeavesNoGapOutWhateverIsWishedAtTheEndOfAPass) {
    // At every moment of the last tenth of a second, once or again and again.
    for (const int wishes : {1, 4})
        for (std::int64_t before = 128; before <= 4800; before += 512) {
            RenderedEngine engine(tone(), rate);
            engine.replan([](Wanted& wanted) {
                wanted.beats = beatListOf(beats());
                wanted.speeds.setManner({1, {}, {}, {}});
            });
            engine.loopFromStart(loop, 1.0);
            engine.render(22050 - before);
            for (int i = 0; i < wishes; ++i) {
                engine.wish([&](Wanted& wanted) { wanted.playing.semitones = i + 1; });
                engine.render(before / wishes);
            }
            engine.render(22050);
            ASSERT_GE(engine.passStarts().size(), 1u);
            // A beat is as long as the loop here; half a gap is silent at the very least.
            const std::int64_t pass = engine.passStarts()[0];
            ASSERT_NEAR(static_cast<double>(pass), 22050, 1) << before << " frames before the end";
            EXPECT_EQ(engine.segmentAt(pass + 11025).leadStage, Stage::Gap);
            float most = 0;
            for (std::int64_t i = pass + 1500; i < pass + 20000; ++i)
                most = std::max(most, std::abs(engine.left()[static_cast<std::size_t>(i)]));
            EXPECT_EQ(most, 0.0f) << wishes << " wishes from " << before << " frames before the end";
            engine.render(4410);
            EXPECT_EQ(engine.segmentAt(engine.rendered() - 1).semitones, wishes) << "and it is heard";
        }
}

TEST(LaneWork, GivesEachTurnOfTheTradeItsOwnSpeed) {
    RenderedEngine engine(tone(), rate);
    engine.mixer->setHearing(Hearing::Trade);
    engine.replan([](Wanted& wanted) {
        wanted.speeds.setManner({0, {}, 1.0, 0.5});
        wanted.speeds.setTrade(0);
    });
    engine.loopFromStart(loop, 0.7);
    engine.render(3 * rate.hertz);
    const auto& starts = engine.passStarts();
    ASSERT_GE(starts.size(), 3u);
    EXPECT_EQ(starts[0], 22050) << "the record at full speed";
    EXPECT_EQ(starts[1] - starts[0], 44100) << "the written notes at half";
    EXPECT_EQ(starts[2] - starts[1], 22050);
    EXPECT_EQ(engine.segmentAt(starts[0]).speed, 0.5);
    EXPECT_EQ(engine.segmentAt(starts[0]).reachedSpeed, 0.7);
    // No note is written: the turn of the notes is silent, but for the 13 ms around the seam.
    for (std::int64_t i = starts[0] + 10; i < starts[1] - 580; ++i)
        ASSERT_EQ(engine.left()[static_cast<std::size_t>(i)], 0.0f) << i - starts[0];
}

/// Largest step of neighbouring samples in a span of output.
float largestStep(const std::vector<float>& samples, std::int64_t from, std::int64_t to) {
    float largest = 0;
    for (std::int64_t i = from + 1; i < to; ++i)
        largest = std::max(largest, std::abs(samples[static_cast<std::size_t>(i)] -
                                             samples[static_cast<std::size_t>(i - 1)]));
    return largest;
}

float loudest(const std::vector<float>& samples, std::int64_t from, std::int64_t to) {
    float most = 0;
    for (std::int64_t i = from; i < to; ++i)
        most = std::max(most, std::abs(samples[static_cast<std::size_t>(i)]));
    return most;
}

/// The steepest step of the tone, at any speed; a stretcher makes it 1 % louder at most (0.8 % was seen).
constexpr float natural = 1.01f * 0.5f * static_cast<float>(2 * M_PI / 100);
/// What a fade adds to it: two weights that move by 1/441 a frame, over samples of 0.5.
constexpr float fading = 2 * 0.5f / 441;

TEST(LaneWork, JoinsPassesOfDifferentSpeedsWithoutAClick) {
    // The loop holds 220.5 periods of the tone, whose natural step is the same at any speed.
    for (const double speed : {0.3, 0.5, 0.9, 1.0, 1.5}) {
        RenderedEngine engine(tone(), rate);
        engine.replan([](Wanted& wanted) { wanted.speeds.setManner({0, Climb{10, 1, 200}, {}, {}}); });
        engine.loopFromStart(loop, speed);
        engine.render(std::llround(3.2 * 22050 / speed));
        ASSERT_GE(engine.passStarts().size(), 3u);
        for (const std::int64_t start : engine.passStarts()) {
            EXPECT_LE(largestStep(engine.left(), start - 1000, start + 1000), 1.25f * natural) << speed;
            // Where they cross, passes may cancel each other for 441 frames; the rest is the tone:
            // 0.354 · √0.56.
            const auto around = static_cast<std::size_t>(start - 500);
            EXPECT_GT(tests::rootMeanSquare(std::span(engine.left()).subspan(around, 1000)), 0.26) << speed;
        }
    }
}

TEST(LaneWork, FallsIntoAGapAndComesOutOfItWithoutAClick) {
    for (const double speed : {0.5, 1.0}) {
        RenderedEngine engine(tone(), rate);
        engine.replan([](Wanted& wanted) {
            wanted.beats = beatListOf(beats());
            wanted.speeds.setManner({1, {}, {}, {}});
        });
        engine.loopFromStart({Frames(44100), Frames(44100 + 22075)}, speed); // ends in mid-period
        engine.render(std::llround(4.5 * 22050 / speed));
        ASSERT_EQ(engine.passStarts().size(), 2u);
        EXPECT_LE(largestStep(engine.left(), 2000, engine.rendered()), natural + fading) << speed;
        const std::int64_t falls = engine.passStarts()[0];
        EXPECT_GT(loudest(engine.left(), falls - 1000, falls - 500), 0.45f) << "the record before the gap";
        EXPECT_EQ(loudest(engine.left(), falls + 500, falls + 1000), 0.0f) << "the gap";
        EXPECT_GT(loudest(engine.left(), engine.rendered() - 500, engine.rendered()), 0.45f)
            << "and after it";
    }
}

TEST(LaneWork, KeepsTheAttackAtALoopsStartWholeAfterAGap) {
    std::vector<float> samples(static_cast<std::size_t>(4 * rate.hertz), 0.0f);
    for (std::size_t i = 0; i < 4000; ++i) // a stroke at A
        samples[44100 + i] = 0.6f * static_cast<float>(std::cos(0.3 * static_cast<double>(i)) *
                                                       std::exp(-static_cast<double>(i) / 800));
    RenderedEngine engine(tests::held(samples, rate.hertz), rate);
    engine.replan([](Wanted& wanted) {
        wanted.beats = beatListOf(beats());
        wanted.speeds.setManner({1, {}, {}, {}});
    });
    engine.loopFromStart(loop, 1.0);
    engine.render(3 * 22050);
    const std::size_t again = 22050 + 22050;
    for (std::size_t i = 0; i < 4000; ++i)
        ASSERT_FLOAT_EQ(engine.left()[again + i], samples[44100 + i]) << i;
}

TEST(LaneWork, RepeatsAnExactPeriodWithAGapHoweverOften) {
    const Range<Frames> shortest{Frames(44100), Frames(44100 + 2205)};
    RenderedEngine engine(tone(), rate);
    std::vector<BeatPlace> quick;
    for (int i = 0; i < 100; ++i)
        quick.push_back({Frames(i * 4410), false});
    engine.replan([&](Wanted& wanted) {
        wanted.beats = beatListOf(quick);
        wanted.speeds.setManner({1, {}, {}, {}});
    });
    engine.loopFromStart(shortest, 1.0);
    engine.render(100 * (2205 + 4410));
    const auto& starts = engine.passStarts();
    ASSERT_GE(starts.size(), 99u);
    for (std::size_t i = 1; i < starts.size(); ++i)
        ASSERT_EQ(starts[i] - starts[i - 1], 2205 + 4410) << i;
    EXPECT_EQ(engine.mixer->underruns(), 0);
}

TEST(LaneWork, ClimbsInTheShortestLoopWithoutRunningDry) {
    const Range<Frames> shortest{Frames(44100), Frames(44100 + 2205)};
    RenderedEngine engine(tone(), rate);
    engine.replan([](Wanted& wanted) { wanted.speeds.setManner({5, Climb{5, 1, 200}, {}, {}}); });
    engine.replan([](Wanted& wanted) { wanted.speeds.setManner({0, Climb{5, 1, 200}, {}, {}}); });
    engine.loopFromStart(shortest, 0.5);
    engine.render(3 * rate.hertz);
    EXPECT_EQ(engine.segmentAt(engine.rendered() - 1).speed, 2.0);
    EXPECT_EQ(engine.mixer->underruns(), 0);
    for (std::int64_t i = 2000; i + 441 < engine.rendered(); i += 441)
        ASSERT_GT(tests::rootMeanSquare(std::span(engine.left()).subspan(static_cast<std::size_t>(i), 441)),
                  0.1)
            << "sound all along, " << i;
}

TEST(LaneWork, NeverStopsTheSoundWhenItsMannerOrLoopChanges) {
    RenderedEngine engine(tone(), rate);
    engine.loopFromStart(loop, 0.8);
    engine.render(3000);
    unsigned random = 7;
    const auto pick = [&random](unsigned choices) {
        random = random * 1664525u + 1013904223u;
        return (random >> 8) % choices;
    };
    for (int i = 0; i < 60; ++i) {
        switch (pick(4)) {
        case 0:
            engine.replan([&](Wanted& wanted) {
                wanted.speeds.setManner({0, Climb{1 + static_cast<int>(pick(9)), 1, 150}, {}, {}});
            });
            break;
        case 1:
            engine.replan([](Wanted& wanted) { wanted.speeds.climbBack(); });
            break;
        case 2:
            engine.replan([&](Wanted& wanted) {
                wanted.speeds.setTrade(pick(2) == 0 ? std::optional<std::int64_t>(0) : std::nullopt);
                wanted.speeds.setManner({0, {}, 0.6, 1.3});
            });
            break;
        default:
            engine.wish([&](Wanted& wanted) {
                wanted.loop = Range{Frames(44100), Frames(44100 + 5000 + 100 * pick(100))};
                wanted.restartPasses = true;
                wanted.speeds.restartRounds();
            });
            break;
        }
        engine.render(500 + static_cast<std::int64_t>(pick(3000)));
    }
    EXPECT_EQ(engine.mixer->underruns(), 0);
    for (std::int64_t i = 2000; i + 882 < engine.rendered(); i += 441)
        ASSERT_GT(tests::rootMeanSquare(std::span(engine.left()).subspan(static_cast<std::size_t>(i), 882)),
                  0.1)
            << i;
}

TEST(LaneWork, WaitsForTheSeamAlsoOverAPause) {
    RenderedEngine engine(tone(), rate);
    engine.replan([](Wanted& wanted) { wanted.speeds.setManner({0, Climb{50, 1, 100}, {}, {}}); });
    engine.loopFromStart(loop, 0.5);
    engine.render(44100 - 3000); // the lane at full speed is ready and ordered
    engine.mixer->setPlaying(false);
    engine.render(4000);
    const double stands = engine.placeAt(engine.rendered() - 1);
    EXPECT_LT(stands, 44100 + 22050);
    EXPECT_GT(stands, 44100 + 22050 - 1600);
    engine.play();
    engine.render(1000);
    EXPECT_NEAR(engine.placeAt(engine.rendered() - 1), stands + 500, 2) << "on from where it stood";
    engine.render(44100);
    ASSERT_GE(engine.passStarts().size(), 1u);
    EXPECT_EQ(engine.segmentAt(engine.passStarts()[0]).speed, 1.0);
}

TEST(LaneWork, GivesWayToASeekBeforeASeam) {
    RenderedEngine engine(tone(), rate);
    engine.replan([](Wanted& wanted) { wanted.speeds.setManner({0, Climb{50, 1, 100}, {}, {}}); });
    engine.loopFromStart(loop, 0.5);
    engine.render(44100 - 3000);
    engine.wish([](Wanted& wanted) { wanted.jump = Frames(50000); });
    engine.render(512);
    EXPECT_NEAR(engine.placeAt(engine.rendered() - 1), 50000 + 256, 64) << "at once";
    EXPECT_EQ(engine.segmentAt(engine.rendered() - 1).speed, 0.5);
}

/// A quarter of a second of one note, from a place of the recording on.
TimedNote noteAt(std::int64_t onset) {
    TimedNote note;
    note.onset = Frames(onset);
    note.end = Frames(onset + rate.hertz / 4);
    return note;
}

TEST(LaneWork, PlaysAnEditedNoteThoughThatStretchWasReadyBefore) {
    RenderedEngine engine(tone(), rate);
    engine.mixer->setHearing(Hearing::Yours);
    engine.play();
    engine.render(rate.hertz);
    // A tenth of a second ahead; at least a quarter waits in the ring.
    const auto onset = static_cast<std::int64_t>(engine.placeAt(engine.rendered() - 1)) + rate.hertz / 10;
    engine.work.change([&](Wanted& wanted) { wanted.notes = noteListOf({noteAt(onset)}); });
    const std::int64_t edited = engine.rendered();
    engine.render(rate.hertz / 2);
    const auto& heard = engine.left();
    std::int64_t first = edited;
    while (first < engine.rendered() && std::abs(heard[static_cast<std::size_t>(first)]) < 1e-3f)
        ++first;
    ASSERT_LT(first, engine.rendered()) << "silence";
    // A string begins within half a millisecond of its pluck.
    EXPECT_NEAR(engine.placeAt(first), static_cast<double>(onset), 22.0);
}

TEST(LaneWork, GoesOnUntouchedWhereAnEditIsElsewhereOrNotHeard) {
    RenderedEngine engine(tone(), rate);
    engine.mixer->setHearing(Hearing::Together);
    engine.play();
    engine.render(rate.hertz);
    const Lane* before = engine.mixer->lanes().lane();
    const auto edit = [&](std::int64_t onset) {
        engine.work.change([&](Wanted& wanted) { wanted.notes = noteListOf({noteAt(onset)}); });
        engine.render(rate.hertz / 10);
    };
    edit(4 * rate.hertz);
    EXPECT_EQ(engine.mixer->lanes().lane(), before) << "far ahead";
    edit(0);
    EXPECT_EQ(engine.mixer->lanes().lane(), before) << "in the past";
    engine.mixer->setHearing(Hearing::Record);
    edit(static_cast<std::int64_t>(engine.placeAt(engine.rendered() - 1)) + rate.hertz / 10);
    EXPECT_EQ(engine.mixer->lanes().lane(), before) << "only the record is heard";
}

} // namespace
} // namespace earwright
