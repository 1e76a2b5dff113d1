#include "core/engine/Mixer.h"

#include "core/engine/Lane.h"
#include "tests/core/engine/AllocationCount.h"
#include "tests/core/engine/HeldRecording.h"
#include "tests/core/engine/PlayingMixer.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests::playing_mixer;
using tests::rootMeanSquare;

TEST(Mixer, PassesTheRecordUntouched) {
    PlayingMixer playing(laneStart(1000));
    const auto out = playing.render(2048);
    EXPECT_FLOAT_EQ(out[2 * 1500], 0.25f);
    EXPECT_FLOAT_EQ(out[2 * 1500 + 1], 0.125f);
}

TEST(Mixer, LeavesTheTurnOfTheTradeAsItIsUntilALaneOfTheNewLoopSounds) {
    Lane::Start start = laneStart(0, 1, 1);
    start.record.loop = Range{Frames(0), Frames(9 * rate.hertz)};
    start.firstPass = 3;
    PlayingMixer playing(start);
    playing.mixer.setHearing(Hearing::Trade);
    playing.mixer.setTradeStart(2, 1);
    playing.render(2048);
    ASSERT_TRUE(playing.mixer.isYoursTurn(3, 1));
    // The loop's edge is dragged: passes are counted from nought, in lanes that are not there yet.
    for (const std::uint64_t wish : {2u, 3u, 4u}) {
        playing.mixer.setTradeStart(wish % 2 == 0 ? 1 : 0, wish);
        EXPECT_TRUE(playing.mixer.isYoursTurn(3, 1)) << "what sounds, at wish " << wish;
        EXPECT_EQ(playing.mixer.isYoursTurn(0, wish), wish % 2 == 0);
        const auto out = playing.render(1024);
        EXPECT_LT(std::abs(out[2 * 900]), 0.1f) << "and not the record";
    }
}

TEST(Mixer, PutsTheRecordLeftAndYoursRightWhenSplit) {
    PlayingMixer playing(laneStart(0));
    playing.mixer.setHearing(Hearing::Split);
    const auto out = playing.render(8192);
    const auto left = channel(out, 0, 2000);
    for (const float sample : left)
        ASSERT_NEAR(sample, 0.1875f, 1e-5) << "both of the record's channels, and nothing else";
    const auto right = channel(out, 1, 2000);
    EXPECT_GT(rootMeanSquare(right), 0.008);
    float mean = 0;
    for (const float sample : right)
        mean += sample / static_cast<float>(right.size());
    EXPECT_NEAR(mean, 0.0f, 0.01f) << "nothing of the record, which is a constant";
}

TEST(Mixer, HearsWhatIsHeldWhateverTheHearingAndEvenStandingStill) {
    Lane::Start start = threeTones();
    start.isHeld = true;
    start.record.from = Frames(22050);
    PlayingMixer playing(start);
    playing.mixer.setPlaying(false);
    playing.mixer.setHolding(true);
    playing.mixer.setHearing(Hearing::Yours);
    const auto heard = channel(playing.render(3 * 8820), 0, 8820);
    EXPECT_NEAR(levelAt(std::span(heard).first(8820), 1000), 0.2, 0.01);
    const auto segment = playing.mixer.heard().segmentAt(OutputFrames(20000));
    ASSERT_TRUE(segment.has_value());
    EXPECT_EQ(segment->tags.placeAt(segment->laneFrameAt(OutputFrames(20000))), 22050.0);
    playing.mixer.setHolding(false);
    playing.render(1024);
    const auto after = playing.render(256);
    EXPECT_EQ(after[300], 0.0f);
}

TEST(Mixer, EntersAndLeavesWhatIsHeldWithoutAClick) {
    PlayingMixer playing(threeTones());
    auto before = channel(playing.render(4096), 0);
    Lane hold;
    Lane::Start start = threeTones();
    start.isHeld = true;
    start.record.from = Frames(4096);
    start.wish = 2;
    hold.start(start);
    hold.fill(16000, false);
    playing.mixer.lanes().order(&hold, playing.lane.ring().taken());
    const auto held = channel(playing.render(8192), 0);
    ASSERT_TRUE(playing.mixer.lanes().isSettled());
    Lane on;
    start.isHeld = false;
    start.wish = 3;
    on.start(start);
    on.fill(16000, false);
    playing.mixer.lanes().order(&on, 0);
    const auto after = channel(playing.render(4096), 0);
    for (const auto* part : {&held, &after})
        before.insert(before.end(), part->begin(), part->end());
    float steepest = 0;
    for (std::size_t i = 2; i < before.size(); ++i)
        steepest = std::max(steepest, std::abs(before[i] - 2 * before[i - 1] + before[i - 2]));
    EXPECT_LT(steepest, 0.14f) << "the record itself reaches 0.10";
}

TEST(Mixer, HearsTogetherWhatItHearsAlone) {
    Lane::Start start = laneStart(110250);
    TimedNote note;
    note.onset = start.record.from;
    note.end = note.onset + Frames(rate.hertz);
    start.notes = noteListOf({note});
    PlayingMixer record(start);
    PlayingMixer yours(start);
    PlayingMixer together(start);
    yours.mixer.setHearing(Hearing::Yours);
    together.mixer.setHearing(Hearing::Together);
    // Softly enough for nothing to be held back.
    for (PlayingMixer* playing : {&yours, &together})
        playing->mixer.setYoursGain(0.5f);
    const auto a = record.render(4096);
    const auto b = yours.render(4096);
    const auto both = together.render(4096);
    EXPECT_GT(rootMeanSquare(std::span(b).subspan(3000)), 1e-3);
    for (std::size_t i = 3000; i < both.size(); ++i)
        ASSERT_NEAR(both[i], a[i] + b[i], 1e-4);
}

TEST(Mixer, TradesPassByPass) {
    Lane::Start start = laneStart(22050);
    start.record.loop = Range{Frames(22050), Frames(44100)};
    TimedNote note;
    note.onset = Frames(22050);
    note.end = Frames(44000);
    start.notes = noteListOf({note});
    PlayingMixer playing(start);
    playing.mixer.setHearing(Hearing::Trade);
    const auto out = playing.render(66150);
    const auto right = channel(out, 1);
    const auto mean = [&](std::size_t from) {
        double sum = 0;
        for (std::size_t i = from; i < from + 8000; ++i)
            sum += static_cast<double>(right[i]) / 8000;
        return sum;
    };
    EXPECT_NEAR(mean(5000), 0.125, 1e-3) << "first the record";
    EXPECT_NEAR(mean(22050 + 5000), 0.0, 1e-2) << "then yours";
    EXPECT_GT(rootMeanSquare(std::span(right).subspan(22050 + 2000, 4000)), 0.008);
    EXPECT_NEAR(mean(44100 + 5000), 0.125, 1e-3) << "then the record again";
}

TEST(Mixer, ChangesHearingLevelAndPlayingWithoutAClick) {
    PlayingMixer playing(laneStart(5 * rate.hertz));
    playing.lane.setNotes(noteListOf({}));
    std::vector<float> all;
    const auto go = [&] {
        const auto part = channel(playing.render(2048), 0);
        all.insert(all.end(), part.begin(), part.end());
    };
    go();
    playing.mixer.setHearing(Hearing::Split);
    go();
    playing.mixer.setHearing(Hearing::Record);
    go();
    playing.mixer.setLevel(0.1f);
    go();
    playing.mixer.setLevel(1.0f);
    go();
    playing.mixer.setPlaying(false);
    go();
    playing.mixer.setPlaying(true);
    go();
    // The steady 0.25 fades over at least 5 ms, 220 frames: 0.0012 a frame; the string adds its own steps.
    EXPECT_LT(largestStep(all), 0.02f);
}

TEST(Mixer, FadesFromLaneToLaneInTenMilliseconds) {
    PlayingMixer playing(laneStart(0));
    playing.lane.setNotes(noteListOf({}));
    playing.render(1024);
    Lane next;
    Lane::Start start = laneStart(0, 1, 2);
    std::vector<float> louder(static_cast<std::size_t>(2 * rate.hertz), -0.25f);
    start.record.recording = tests::held(louder, rate.hertz, 2);
    start.notes = noteListOf({});
    next.start(start);
    next.fill(4096, false);
    const std::int64_t at = playing.lane.ring().taken() + 300;
    playing.mixer.lanes().order(&next, at);
    EXPECT_FALSE(playing.mixer.lanes().isSettled());
    const auto out = channel(playing.render(2048), 0);
    EXPECT_TRUE(playing.mixer.lanes().isSettled());
    EXPECT_FLOAT_EQ(out[250], 0.25f);
    EXPECT_FLOAT_EQ(out[300 + 64 + 441 + 10], -0.25f);
    EXPECT_LT(largestStep(out), 0.5f * 1.6f / 441);
}

TEST(Mixer, SkipsInALaneThatComesLateSoThatTimeGoesOn) {
    PlayingMixer playing(laneStart(0));
    playing.render(2048);
    const std::int64_t taken = playing.lane.ring().taken();
    Lane next;
    // Joined 1,000 frames ago, at half speed: 500 recording frames on.
    next.start(laneStart(taken - 1000, 0.5, 2));
    next.fill(4096, false);
    playing.mixer.lanes().order(&next, taken - 1000);
    std::vector<float> stereo(128);
    playing.mixer.render(stereo, rate, 0, false);
    const auto segment = playing.mixer.heard().segmentAt(OutputFrames(taken));
    ASSERT_TRUE(segment.has_value());
    EXPECT_EQ(segment->wish, 2u);
    EXPECT_NEAR(segment->tags.placeAt(segment->laneFrame), static_cast<double>(taken), 1.0);
}

TEST(Mixer, TurnsToPauseAtTheEnd) {
    Lane::Start start = laneStart(0);
    start.end = Frames(3000);
    PlayingMixer playing(start);
    playing.render(2500);
    EXPECT_TRUE(playing.mixer.isPlaying());
    playing.render(1500);
    EXPECT_FALSE(playing.mixer.isPlaying());
    EXPECT_TRUE(playing.mixer.isAtEnd());
    const auto after = playing.render(256);
    EXPECT_FLOAT_EQ(after[100], 0.0f);
}

TEST(Mixer, CountsAnUnderrunOnceAndTellsThePlaceAllTheSame) {
    PlayingMixer playing(laneStart(0));
    std::vector<float> stereo(2 * 8192);
    playing.mixer.render(stereo, rate, 0, false);
    EXPECT_EQ(playing.mixer.underruns(), 1);
    const std::int64_t taken = playing.lane.ring().taken();
    playing.render(256);
    const auto segment = playing.mixer.heard().segmentAt(OutputFrames(8192 + 100));
    ASSERT_TRUE(segment.has_value());
    EXPECT_EQ(segment->laneFrameAt(OutputFrames(8192 + 100)), taken + 100);
}

TEST(Mixer, LimitsWhatIsTooLoud) {
    Lane::Start start = laneStart(0);
    start.record.recording = tests::held(std::vector<float>(88200, 0.95f), rate.hertz, 2);
    TimedNote note;
    note.end = Frames(44100);
    note.loudness = 1;
    start.notes = noteListOf({note});
    PlayingMixer playing(start);
    playing.mixer.setHearing(Hearing::Together);
    playing.mixer.setYoursGain(4);
    for (const float sample : playing.render(8192))
        ASSERT_LE(std::abs(sample), 1.0f);
    EXPECT_GT(playing.mixer.takePeak(), 0.95f);
    EXPECT_EQ(playing.mixer.takePeak(), 0.0f);
    EXPECT_TRUE(playing.mixer.takeLimited());
    EXPECT_FALSE(playing.mixer.takeLimited());
}

/// Largest sample of a record near full scale, with an audition or clicks on top of it.
double loudestWith(bool audition, bool clicks) {
    Lane::Start start = laneStart(0);
    start.record.recording = tests::held(std::vector<float>(88200, 0.95f), rate.hertz, 2);
    start.notes = noteListOf({});
    start.beats = beatListOf({{Frames(2000), true}, {Frames(6000), false}});
    PlayingMixer playing(start);
    playing.mixer.setClicks(clicks);
    StringGesture gesture;
    gesture.pitch = 69;
    gesture.loudness = 1;
    if (audition) playing.mixer.audition(gesture);
    double most = 0;
    for (const float sample : playing.render(8192))
        most = std::max(most, std::abs(static_cast<double>(sample)));
    EXPECT_EQ(playing.mixer.takeLimited(), audition || clicks) << "the visible mark";
    return most;
}

TEST(Mixer, BendsAuditionsAndClicksOverALoudRecordInsteadOfClippingThem) {
    EXPECT_FLOAT_EQ(static_cast<float>(loudestWith(false, false)), 0.95f) << "the record alone, untouched";
    EXPECT_LT(loudestWith(true, false), 1.0);
    EXPECT_LT(loudestWith(false, true), 1.0);
}

TEST(Mixer, SoundsAnAuditionWithoutPlaying) {
    Mixer mixer;
    StringGesture gesture;
    gesture.pitch = 69;
    mixer.audition(gesture);
    std::vector<float> stereo(2 * 22050);
    mixer.render(stereo, rate, 0, false);
    const auto left = channel(stereo, 0, 2000);
    const double found = tests::hertzNear(left, 440, rate.hertz);
    EXPECT_LT(std::abs(tests::cents(found, 440)), 2.0);
}

TEST(Mixer, NeverTouchesTheHeapWhileItRenders) {
    PlayingMixer playing(laneStart(0));
    Lane next;
    next.start(laneStart(3000, 0.7, 2));
    next.fill(8192, false);
    playing.lane.fill(16000, false);
    std::vector<float> stereo(512);
    std::size_t count = 0;
    const auto render = [&](int times) {
        const tests::AllocationCount allocations;
        for (int i = 0; i < times; ++i)
            playing.mixer.render(stereo, rate, 0, i == 3);
        count += allocations.soFar();
    };
    render(5);
    StringGesture gesture;
    for (int i = 0; i < 12; ++i) {
        gesture.pitch = 40 + 3 * i;
        playing.mixer.audition(gesture);
    }
    render(5);
    for (const Hearing hearing :
         {Hearing::Yours, Hearing::Together, Hearing::Split, Hearing::Trade, Hearing::Record}) {
        playing.mixer.setHearing(hearing);
        render(2);
    }
    for (const Focus focus : {Focus::Left, Focus::Right, Focus::Centre, Focus::Sides, Focus::All}) {
        playing.mixer.setFocus(focus);
        render(1);
    }
    for (const auto& band : {std::optional(Band{300, 900}), std::optional(Band{350, 900, true}),
                             std::optional(Band{20, 900}), std::optional<Band>()}) {
        playing.mixer.setBand(band);
        render(6);
    }
    playing.mixer.lanes().order(&next, playing.lane.ring().taken() + 100);
    render(10);
    EXPECT_TRUE(playing.mixer.lanes().isSettled());
    // The seam of a loop, and one taken back.
    Lane& other = playing.lane;
    Lane::Start seam = laneStart(3000, 0.5, 2);
    seam.early = 441;
    seam.lead = Lead::gap(beatListOf({}), Frames(3000), 1, rate, 40);
    other.start(seam);
    other.fill(16000, false);
    next.fill(8192, false);
    playing.mixer.lanes().order(&other, next.ring().taken() + 700, LanePlayer::Turn::Exact);
    EXPECT_TRUE(playing.mixer.lanes().withdraw());
    playing.mixer.lanes().order(&other, next.ring().taken() + 700, LanePlayer::Turn::Exact);
    playing.mixer.setClicks(true);
    render(10);
    EXPECT_TRUE(playing.mixer.lanes().isSettled());
    playing.mixer.setPlaying(false);
    render(5);
    playing.mixer.setPlaying(true);
    render(80); // and an underrun
    EXPECT_EQ(playing.mixer.underruns(), 1);
    EXPECT_EQ(count, 0u);
}

} // namespace
} // namespace earwright
