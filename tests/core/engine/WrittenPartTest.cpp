#include "core/engine/WrittenPart.h"

#include "tests/core/engine/HeldRecording.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

constexpr SampleRate rate{44100};

TimedNote noteAt(std::int64_t onset, std::int64_t end, int midi = 69) {
    TimedNote note;
    note.onset = Frames(onset);
    note.end = Frames(end);
    note.midi = midi;
    return note;
}

std::vector<float> heardFrom(const TimeTags& tags, double speed, std::vector<TimedNote> notes,
                             std::size_t frames, double semitones = 0) {
    WrittenPart part;
    part.start({tags, speed, semitones, rate, rate}, noteListOf(std::move(notes)));
    std::vector<float> out(frames, 0.0f);
    for (std::size_t at = 0; at < frames; at += 256)
        part.produce(std::span(out).subspan(at, std::min<std::size_t>(256, frames - at)));
    return out;
}

/// The first frame at which something sounds, from a frame on.
long onsetAfter(const std::vector<float>& out, long from) {
    for (long i = from; i < static_cast<long>(out.size()); ++i)
        if (std::abs(out[static_cast<std::size_t>(i)]) > 1e-3f) return i;
    return -1;
}

TEST(WrittenPart, PlucksInTheOutputFrameOfItsOnsetAtEverySpeed) {
    for (const double speed : {0.1, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0}) {
        const TimeTags tags(10000, speed, std::nullopt, 0);
        const auto out = heardFrom(tags, speed, {noteAt(14000, 20000)}, 60000);
        const long expected = std::lround(4000 / speed);
        EXPECT_NEAR(static_cast<double>(onsetAfter(out, 0)), static_cast<double>(expected), 20.0) << speed;
    }
}

TEST(WrittenPart, PlaysEachPassOfALoopAtTheSamePlace) {
    const TimeTags tags(10000, 0.5, Range{Frames(10000), Frames(20000)}, 0);
    const auto out = heardFrom(tags, 0.5, {noteAt(12000, 13000), noteAt(25000, 26000)}, 100000);
    // Three notes of 4,000 output frames and their tails, 20,000 apart; the one behind the loop never sounds.
    for (const long pass : {0L, 1L, 2L, 3L})
        EXPECT_NEAR(static_cast<double>(onsetAfter(out, pass * 20000 + 100)),
                    static_cast<double>(pass * 20000 + 4000), 20.0);
    EXPECT_LT(tests::rootMeanSquare(std::span(out).subspan(15000, 5000)), 1e-4);
}

TEST(WrittenPart, LetsNothingRingAcrossTheSeam) {
    const TimeTags tags(10000, 1, Range{Frames(10000), Frames(30000)}, 0);
    const auto out = heardFrom(tags, 1, {noteAt(18000, 60000)}, 40000);
    const double before = tests::rootMeanSquare(std::span(out).subspan(19000, 1000));
    EXPECT_GT(before, 0.01);
    EXPECT_LT(tests::rootMeanSquare(std::span(out).subspan(25000, 2000)), 0.01 * before);
}

TEST(WrittenPart, GoesOnInTheMiddleOfANote) {
    const TimeTags tags(20000, 1, std::nullopt, 0);
    const auto inside = heardFrom(tags, 1, {noteAt(10000, 60000)}, 4000);
    const auto fromStart = heardFrom(TimeTags(10000, 1, std::nullopt, 0), 1, {noteAt(10000, 60000)}, 14000);
    EXPECT_NEAR(tests::rootMeanSquare(inside),
                tests::rootMeanSquare(std::span(fromStart).subspan(10000, 4000)), 1e-4);
}

TEST(WrittenPart, TransposesWithTheRecord) {
    const auto out = heardFrom(TimeTags(0, 1, std::nullopt, 0), 1, {noteAt(0, 44100)}, 30000, -2.5);
    const double expected = tests::hertzOfMidi(66.5);
    const double found = tests::hertzNear(std::span(out).subspan(3000, 22000), expected, rate.hertz);
    EXPECT_LT(std::abs(tests::cents(found, expected)), 2.0);
}

TEST(WrittenPart, TakesAnotherListInMidPlay) {
    WrittenPart part;
    part.start({TimeTags(0, 1, std::nullopt, 0), 1, 0, rate, rate}, noteListOf({noteAt(30000, 40000)}));
    std::vector<float> out(20000, 0.0f);
    part.produce(std::span(out).first(10000));
    part.setNotes(noteListOf({noteAt(5000, 6000), noteAt(15000, 16000)}));
    part.produce(std::span(out).subspan(10000));
    EXPECT_NEAR(static_cast<double>(onsetAfter(out, 0)), 15000.0, 20.0)
        << "the note in the past stays silent";
}

TEST(WrittenPart, TellsWhereTwoListsDiffer) {
    const NoteList one = noteListOf({noteAt(1000, 2000), noteAt(5000, 6000)});
    const NoteList other = noteListOf({noteAt(1000, 2000), noteAt(5000, 6500)});
    EXPECT_FALSE(differWithin(one, other, {Frames(0), Frames(5000)}));
    EXPECT_TRUE(differWithin(one, other, {Frames(0), Frames(5001)}));
    EXPECT_TRUE(differWithin(one, other, {Frames(6200), Frames(7000)})) << "one reaches into it";
    EXPECT_FALSE(differWithin(one, other, {Frames(6500), Frames(9000)}));
    EXPECT_FALSE(differWithin(one, noteListOf({noteAt(1000, 2000)}), {Frames(0), Frames(4000)}));
    EXPECT_TRUE(differWithin(one, noteListOf({noteAt(1000, 2000)}), {Frames(0), Frames(5500)}));
}

} // namespace
} // namespace earwright
