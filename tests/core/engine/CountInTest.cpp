// Clicks before the record and on its beats, where they come out.
#include "core/engine/LaneWork.h"
#include "tests/core/engine/HeldRecording.h"
#include "tests/core/engine/RenderedEngine.h"
#include "tests/core/engine/ToneWithBeats.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using tests::RenderedEngine;
using tests::tone_with_beats::beats;
using tests::tone_with_beats::rate;
using tests::tone_with_beats::tone;

/// Frames where something loud begins after silence of at least 20 ms.
std::vector<std::int64_t> onsetsIn(const std::vector<float>& samples, std::int64_t from, float threshold) {
    std::vector<std::int64_t> onsets;
    std::int64_t quietSince = from;
    for (std::int64_t i = from; i < static_cast<std::int64_t>(samples.size()); ++i) {
        if (std::abs(samples[static_cast<std::size_t>(i)]) < threshold) continue;
        if (i - quietSince > rate.hertz / 50) onsets.push_back(i);
        quietSince = i;
    }
    return onsets;
}

std::shared_ptr<Recording> silence() {
    return tests::held(std::vector<float>(static_cast<std::size_t>(7 * rate.hertz), 0.0f), rate.hertz);
}

/// A click is loud within a millisecond, the accuracy asked for.
constexpr std::int64_t clickRise = 44;

TEST(CountIn, ClicksBeforeTheRecordSounds) {
    for (const double speed : {0.5, 1.0, 1.6}) {
        RenderedEngine engine(tone(), rate);
        engine.wish([&](Wanted& wanted) {
            wanted.beats = beatListOf(beats());
            wanted.jump = Frames(44100);
            wanted.speeds.set(speed);
            wanted.countIn = 4;
        });
        engine.play();
        const double beat = 22050 / speed;
        engine.render(std::llround(5 * beat));
        const std::int64_t begins = std::llround(4 * beat);
        EXPECT_EQ(engine.segmentAt(100).leadStage, Stage::CountIn);
        EXPECT_EQ(engine.placeAt(begins / 2), 44100.0) << "it waits where playing begins";
        EXPECT_EQ(engine.placeAt(begins), 44100.0);
        EXPECT_NEAR(engine.placeAt(begins + 1000), 44100 + 1000 * speed, 1e-6);
        for (int click = 0; click < 4; ++click) {
            const auto at = static_cast<std::size_t>(begins - std::llround((4 - click) * beat));
            EXPECT_EQ(engine.left()[at], 0.0f);
            float loudest = 0;
            for (std::size_t i = at; i < at + clickRise; ++i)
                loudest = std::max(loudest, std::abs(engine.left()[i]));
            EXPECT_GT(loudest, click == 2 ? 0.4f : 0.2f) << "click " << click << " at " << speed;
            for (std::size_t i = at + 1400; i < at + static_cast<std::size_t>(beat) - 450; ++i)
                ASSERT_EQ(engine.left()[i], 0.0f) << "silence between clicks";
        }
    }
}

TEST(BeatClicks, LieWhereTheBeatsOfTheRecordingDoAtEverySpeed) {
    for (const double speed : {0.25, 0.5, 0.8, 1.0, 1.5, 2.0}) {
        RenderedEngine engine(silence(), rate);
        engine.mixer->setClicks(true);
        engine.replan([](Wanted& wanted) { wanted.beats = beatListOf(beats()); });
        engine.loopFromStart({Frames(33075), Frames(33075 + 44100)}, speed);
        engine.render(std::llround(2.4 * 44100 / speed));
        const auto onsets = onsetsIn(engine.left(), 2000, 0.05f);
        // Beats half a beat after the start and every beat on, seam or not.
        ASSERT_GE(onsets.size(), 4u) << speed;
        for (std::size_t i = 0; i < onsets.size(); ++i) {
            const double due = (11025 + 22050 * static_cast<double>(i)) / speed;
            EXPECT_NEAR(static_cast<double>(onsets[i]), due, 0.001 * rate.hertz) << speed;
        }
    }
}

TEST(BeatClicks, GoOnThroughAGap) {
    RenderedEngine engine(silence(), rate);
    engine.mixer->setClicks(true);
    engine.replan([](Wanted& wanted) {
        wanted.beats = beatListOf(beats());
        wanted.speeds.setManner({2, {}, {}, {}});
    });
    engine.loopFromStart({Frames(44100), Frames(3 * 44100)}, 1.0);
    engine.render(6 * rate.hertz);
    const auto onsets = onsetsIn(engine.left(), 0, 0.05f);
    // Four beats, two of the gap, and so on: every half second, without the first, that begins at once.
    ASSERT_GE(onsets.size(), 10u);
    for (std::size_t i = 0; i < onsets.size(); ++i)
        EXPECT_NEAR(static_cast<double>(onsets[i]), 22050.0 * static_cast<double>(i + 1), clickRise) << i;
}

TEST(CountIn, GoesOnAtAnotherSpeed) {
    RenderedEngine engine(tone(), rate);
    engine.wish([&](Wanted& wanted) {
        wanted.beats = beatListOf(beats());
        wanted.jump = Frames(44100);
        wanted.countIn = 4;
    });
    engine.play();
    engine.render(22050); // a beat of four
    engine.wish([](Wanted& wanted) { wanted.speeds.set(0.5); });
    engine.render(22050);
    const HeardSegment segment = engine.segmentAt(engine.rendered() - 1);
    EXPECT_EQ(segment.leadStage, Stage::CountIn);
    // Three beats were left, now a second each; half a second of them is over.
    const std::int64_t left = segment.tags.lead() - segment.laneFrameAt(OutputFrames(engine.rendered()));
    EXPECT_NEAR(static_cast<double>(left), 2.5 * 44100, 1500);
}

} // namespace
} // namespace earwright
