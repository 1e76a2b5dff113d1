#include "core/engine/LaneWork.h"

#include "tests/core/engine/HeldRecording.h"
#include "tests/core/engine/RenderedEngine.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using tests::RenderedEngine;

constexpr SampleRate rate{44100};

constexpr Range<Frames> loop{Frames(44100), Frames(44100 + 22050)};

/// A tone of 441 Hz, a hundred frames a period, so that the loop holds whole periods.
std::shared_ptr<Recording> tone() {
    std::vector<float> samples(static_cast<std::size_t>(6 * rate.hertz));
    for (std::size_t i = 0; i < samples.size(); ++i)
        samples[i] = 0.5f * static_cast<float>(std::sin(2 * M_PI * static_cast<double>(i) / 100));
    return tests::held(samples, rate.hertz);
}

/// Beats of half a second over all of it, four to a bar.
std::vector<BeatPlace> beats() {
    std::vector<BeatPlace> places;
    for (int beat = 0; beat < 12; ++beat)
        places.push_back({Frames(beat * 22050), beat % 4 == 0});
    return places;
}

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

} // namespace
} // namespace earwright
