#include "core/engine/TakeCutter.h"

#include <cmath>
#include <gtest/gtest.h>
#include <random>
#include <vector>

namespace earwright {
namespace {

/// Plays input blocks while a segment is heard. Input frame 0 is played with output frame `start`.
class Playing {
public:
    SampleRate outputRate{44100};
    int inputRate = 48000;
    /// Uniform, either way.
    double jitterSeconds = 0;
    /// The input's clock against the output's.
    double clock = 1;
    double start = 1000;
    float loudness = 0.3f;
    std::int64_t frame = 0;
    TakeCutter cutter;

    void play(double seconds, const HeardSegment& segment) {
        const auto until = frame + std::llround(seconds * inputRate);
        std::uniform_real_distribution<double> jitter(-jitterSeconds, jitterSeconds);
        for (; frame < until; frame += 64) {
            InputBlock block;
            block.first = InputFrames(frame);
            block.rateHertz = inputRate;
            block.frames = 64;
            block.samples.fill(loudness);
            const double heard = outputOf(static_cast<double>(frame)) + jitter(random) * outputRate.hertz;
            cutter.give(block, HeardThen{heard, segment, outputRate});
        }
    }
    double outputOf(double input) const { return start + input * clock * outputRate.hertz / inputRate; }
    /// The exact input frame at which an output frame is heard.
    double inputOf(double output) const { return (output - start) * inputRate / clock / outputRate.hertz; }

private:
    std::mt19937 random{11};
};

HeardSegment straight(std::int64_t output, double place, double speed) {
    HeardSegment segment;
    segment.output = OutputFrames(output);
    segment.tags = TimeTags(place, speed, {}, 0);
    segment.moving = true;
    return segment;
}

TEST(TakeCutter, LinesUpWhatWasPlayedAlong) {
    Playing hand;
    hand.jitterSeconds = 0.004;
    HeardSegment segment = straight(0, 20000, 0.5);
    segment.semitones = -2;
    hand.play(10, segment);
    hand.cutter.finish();
    const auto takes = hand.cutter.take();
    ASSERT_EQ(takes.size(), 1u);
    const CutTake& take = takes[0];
    // Output frame o is recording frame 20000 + o/2. A mean over 7500 blocks of ±4 ms is within 0.03 ms.
    const double place = 20000 + hand.outputOf(static_cast<double>(take.part.begin.value)) / 2;
    EXPECT_NEAR(place, static_cast<double>(take.at.value), 0.0001 * 44100);
    EXPECT_DOUBLE_EQ(take.framesPerInput, 0.5 * 44100 / 48000);
    EXPECT_EQ(take.semitones, -2);
    EXPECT_FALSE(take.isWholePass);
    EXPECT_NEAR(static_cast<double>((take.part.end - take.part.begin).value), 480000, 200);
}

TEST(TakeCutter, MakesATakeOfEachPassOfALoop) {
    Playing hand;
    HeardSegment segment;
    segment.output = OutputFrames(0);
    // A pass lasts 2 s; output frame 0 stands in the middle of one.
    segment.tags = TimeTags(44100 + 44100, 1, Range{Frames(44100), Frames(3 * 44100)}, 3);
    segment.moving = true;
    hand.play(6.5, segment);
    // Passes that are over are there while the next is played.
    EXPECT_EQ(hand.cutter.take().size(), 3u);
    hand.play(0.2, segment);
    hand.cutter.finish();
    EXPECT_EQ(hand.cutter.take().size(), 1u);

    Playing again;
    again.play(6.7, segment);
    again.cutter.finish();
    const auto takes = again.cutter.take();
    ASSERT_EQ(takes.size(), 4u);
    EXPECT_FALSE(takes[0].isWholePass) << "it was begun in the middle";
    EXPECT_TRUE(takes[1].isWholePass);
    EXPECT_TRUE(takes[2].isWholePass);
    EXPECT_FALSE(takes[3].isWholePass) << "it was left in the middle";
    for (const int whole : {1, 2}) {
        EXPECT_EQ(takes[static_cast<std::size_t>(whole)].at, Frames(44100));
        const double seam = again.inputOf(44100 + 88200.0 * (whole - 1));
        EXPECT_NEAR(static_cast<double>(takes[static_cast<std::size_t>(whole)].part.begin.value), seam, 2);
    }
}

TEST(TakeCutter, BeginsAnotherTakeAfterASeekAndLeavesOutPauses) {
    Playing hand;
    hand.play(1, straight(0, 0, 1));
    HeardSegment paused = straight(45100, 44100, 1);
    paused.moving = false;
    hand.play(1, paused);
    hand.play(1, straight(89000, 500000, 1));
    hand.play(0.2, straight(133300, 700000, 1));
    hand.cutter.finish();
    const auto takes = hand.cutter.take();
    ASSERT_EQ(takes.size(), 2u) << "0.2 s are too short for a take";
    EXPECT_NEAR(static_cast<double>(takes[1].at.value), 500000 + hand.outputOf(96000) - 89000, 70);
}

TEST(TakeCutter, MakesNoTakeOfWhatIsPlayedToAHeldInstant) {
    Playing hand;
    hand.play(1, straight(0, 0, 1));
    hand.play(2, straight(45100, 44100, 0));
    hand.play(1, straight(133300, 44100, 1));
    hand.cutter.finish();
    const auto takes = hand.cutter.take();
    ASSERT_EQ(takes.size(), 2u);
    EXPECT_NEAR(static_cast<double>((takes[0].part.end - takes[0].part.begin).value), 48000, 200);
    EXPECT_NEAR(static_cast<double>(takes[1].at.value), 44100 + hand.outputOf(3 * 48000) - 133300, 70);
}

TEST(TakeCutter, LeavesOutPassesInWhichNobodyPlayed) {
    Playing hand;
    hand.loudness = 0.0005f;
    hand.play(3, straight(0, 0, 1));
    hand.cutter.finish();
    EXPECT_TRUE(hand.cutter.take().empty());
}

TEST(TakeCutter, FollowsAnInputWhoseClockGoesItsOwnWay) {
    Playing hand;
    hand.jitterSeconds = 0.003;
    hand.clock = 1.0001;
    hand.play(180, straight(0, 0, 1));
    hand.cutter.finish();
    const auto takes = hand.cutter.take();
    ASSERT_EQ(takes.size(), 1u);
    // After three minutes the two clocks are 18 ms apart; the take keeps within 1 ms at both ends.
    for (const auto end : {takes[0].part.begin, takes[0].part.end}) {
        const double byTake =
            static_cast<double>(takes[0].at.value) +
            static_cast<double>((end - takes[0].part.begin).value) * takes[0].framesPerInput;
        EXPECT_NEAR(byTake, hand.outputOf(static_cast<double>(end.value)), 44.1);
    }
}

} // namespace
} // namespace earwright
