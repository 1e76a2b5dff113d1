#include "core/engine/PluckedString.h"

#include "tests/core/engine/StringSound.h"

#include <array>
#include <cmath>
#include <complex>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

/// Share of the energy above a first-difference high pass: a measure of brightness.
double brightness(std::span<const float> samples) {
    double high = 0;
    double all = 0;
    for (std::size_t i = 1; i < samples.size(); ++i) {
        const double step = static_cast<double>(samples[i]) - static_cast<double>(samples[i - 1]);
        high += step * step;
        all += static_cast<double>(samples[i]) * static_cast<double>(samples[i]);
    }
    return high / all;
}

// ISO 16 gives A4 = 440 Hz; the other pitches follow by equal temperament.
TEST(PluckedString, IsInTuneWithinTwoCentsFromE2ToE6) {
    for (const int hertz : {44100, 48000, 96000})
        for (int midi = 40; midi <= 88; ++midi) {
            const auto out = sounded(plain(midi), 0.9, hertz);
            const double found = hertzNear(between(out, 0.1, 0.8, hertz), hertzOfMidi(midi), hertz);
            EXPECT_LT(std::abs(cents(found, hertzOfMidi(midi))), 2.0) << "MIDI " << midi << " at " << hertz;
        }
}

TEST(PluckedString, PlaysPitchesBetweenTheKeys) {
    const auto out = sounded(plain(64.37), 0.9);
    EXPECT_LT(
        std::abs(cents(hertzNear(between(out, 0.1, 0.8), hertzOfMidi(64.37), rate), hertzOfMidi(64.37))),
        2.0);
}

TEST(PluckedString, IsLouderAndBrighterTheHarderItIsPlucked) {
    for (const double pitch : {45.0, 60.0, 76.0}) {
        const auto ghost = sounded(plain(pitch, 0.25), 0.3);
        const auto usual = sounded(plain(pitch, 0.6), 0.3);
        const auto accent = sounded(plain(pitch, 0.9), 0.3);
        const double usualLevel = rootMeanSquare(between(usual, 0, 0.1));
        // At least 4 dB from an ordinary note to an accent, 8 dB to a ghost: heard without comparing.
        EXPECT_GT(20 * std::log10(rootMeanSquare(between(accent, 0, 0.1)) / usualLevel), 4.0) << pitch;
        EXPECT_LT(20 * std::log10(rootMeanSquare(between(ghost, 0, 0.1)) / usualLevel), -8.0) << pitch;
        EXPECT_GT(brightness(between(accent, 0, 0.1)), 1.3 * brightness(between(usual, 0, 0.1))) << pitch;
        EXPECT_LT(brightness(between(ghost, 0, 0.1)), 0.8 * brightness(between(usual, 0, 0.1))) << pitch;
    }
}

TEST(PluckedString, SpeaksAtOnce) {
    for (const double pitch : {40.0, 64.0, 88.0}) {
        const auto out = sounded(plain(pitch), 0.1);
        EXPECT_LT(tests::loudestIn(out, 0, rate / 20), rate / 250) << pitch; // 4 ms
        EXPECT_GT(std::abs(out[static_cast<std::size_t>(tests::loudestIn(out, 0, 60))]), 0.05f) << pitch;
    }
}

TEST(PluckedString, DiesAwayAndFallsSilentWhenItIsReleased) {
    const auto held = sounded(plain(60, 0.6, 5.0), 2.0);
    EXPECT_LT(rootMeanSquare(between(held, 1.5, 2.0)), 0.5 * rootMeanSquare(between(held, 0.0, 0.5)));
    EXPECT_GT(rootMeanSquare(between(held, 0.9, 1.0)), 0.003);
    const auto shortNote = sounded(plain(60, 0.6, 0.3), 1.0);
    EXPECT_LT(rootMeanSquare(between(shortNote, 0.45, 0.6)),
              1e-3 * rootMeanSquare(between(shortNote, 0, 0.3)));
}

TEST(PluckedString, NeverRunsAwayOverItsWholeRange) {
    for (double pitch = 20; pitch <= 108; pitch += 1) {
        const auto out = sounded(plain(pitch, 1.0, 3.0), 1.0);
        for (const float sample : out)
            ASSERT_LT(std::abs(sample), 1.2f) << pitch;
    }
}

TEST(PluckedString, GlidesIntoAndOutOfANote) {
    StringGesture gesture = plain(64, 0.6, 0.6);
    gesture.slideIn = -2;
    gesture.slideOut = 3;
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0), 62);
    EXPECT_GT(gesture.pitchAt(0.045), 62.5);
    EXPECT_LT(gesture.pitchAt(0.045), 63.5);
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.3), 64);
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.6), 67);
    const auto out = sounded(gesture, 0.6);
    EXPECT_LT(std::abs(cents(hertzNear(between(out, 0.15, 0.45), hertzOfMidi(64), rate), hertzOfMidi(64))),
              3.0);
    // Half of the glide lies below E4: its first 40 ms are nearer to D4.
    const double start = hertzNear(between(out, 0.0, 0.04), hertzOfMidi(62.3), rate);
    EXPECT_LT(start, hertzOfMidi(63.2));
}

TEST(PluckedString, AlternatesInATrill) {
    StringGesture gesture = plain(67, 0.6, 1.0);
    gesture.trill = 2;
    int changes = 0;
    for (double t = 0.001; t < 0.7; t += 0.001)
        if (gesture.pitchAt(t) != gesture.pitchAt(t - 0.001)) ++changes;
    EXPECT_GE(changes, 8);
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.03), 67);
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.10), 69);
    const auto out = sounded(gesture, 1.0);
    EXPECT_NEAR(cents(hertzNear(between(out, 0.01, 0.065), hertzOfMidi(67), rate), hertzOfMidi(67)), 0, 15);
    EXPECT_NEAR(cents(hertzNear(between(out, 0.082, 0.138), hertzOfMidi(69), rate), hertzOfMidi(69)), 0, 15);
}

TEST(PluckedString, TakesTheTimeOfGraceNotesFromTheNote) {
    StringGesture gesture = plain(67, 0.6, 0.8);
    gesture.grace = {65, 66};
    gesture.graceCount = 2;
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.0), 65);
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.07), 66);
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.13), 67);
    gesture.seconds = 0.1;
    EXPECT_DOUBLE_EQ(gesture.mainStart(), 0.05) << "never more than half of the note";
}

TEST(PluckedString, IsPulledUpAndLetDownAgain) {
    StringGesture gesture = plain(62, 0.6, 1.2);
    gesture.bend = {0, 2, 0};
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0), 62);
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.6), 64);
    EXPECT_DOUBLE_EQ(gesture.pitchAt(1.2), 62);
    for (double t = 0.01; t < 0.18; t += 0.01)
        EXPECT_GT(gesture.pitchAt(t), gesture.pitchAt(t - 0.01)) << "it glides";
    const auto out = sounded(gesture, 1.2);
    EXPECT_NEAR(cents(hertzNear(between(out, 0.25, 0.95), hertzOfMidi(64), rate), hertzOfMidi(64)), 0, 5);
    EXPECT_NEAR(cents(hertzNear(between(out, 0.0, 0.04), hertzOfMidi(62.1), rate), hertzOfMidi(62)), 0, 45);
    StringGesture prebent = plain(62, 0.6, 1.0);
    prebent.bend = {2, 2, 2};
    EXPECT_NEAR(
        cents(hertzNear(between(sounded(prebent, 0.5), 0.02, 0.4), hertzOfMidi(64), rate), hertzOfMidi(64)),
        0, 5);
}

TEST(PluckedString, VibratesAroundItsPitch) {
    StringGesture gesture = plain(69, 0.6, 2.0);
    gesture.vibrato = true;
    double highest = 0;
    double lowest = 200;
    int turns = 0;
    for (double t = 0.001; t < 1.12; t += 0.001) {
        highest = std::max(highest, gesture.pitchAt(t));
        lowest = std::min(lowest, gesture.pitchAt(t));
        if (gesture.pitchAt(t - 0.001) < 69 && gesture.pitchAt(t) >= 69) ++turns;
    }
    EXPECT_NEAR(highest - 69, 69 - lowest, 1e-3);
    EXPECT_GE(turns, 4) << "between four and seven a second";
    EXPECT_LE(turns, 7);
    const auto out = sounded(gesture, 1.5);
    EXPECT_NEAR(cents(hertzNear(between(out, 0.15, 1.25), hertzOfMidi(69), rate), hertzOfMidi(69)), 0, 8);
}

TEST(PluckedString, FallsFarAndScoopsFromClose) {
    StringGesture gesture = plain(64, 0.6, 0.8);
    gesture.slideIn = -1;
    gesture.scoop = true;
    gesture.slideOut = -7;
    gesture.fall = true;
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0), 63);
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.3), 64);
    EXPECT_LT(gesture.pitchAt(0.7), 61) << "already far down";
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.8), 57);
}

TEST(PluckedString, TouchesTheNotesOfATurnBeforeItSettles) {
    StringGesture gesture = plain(67, 0.6, 1.0);
    gesture.figure = {2, 0, -1};
    gesture.figureCount = 3;
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.03), 69);
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.10), 67);
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.17), 66);
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.22), 67);
    gesture.seconds = 0.15;
    EXPECT_DOUBLE_EQ(gesture.pitchAt(0.1), 67) << "a short note keeps two fifths of its time";
    gesture.seconds = 1.0;
    const auto turned = sounded(gesture, 0.2);
    EXPECT_NEAR(cents(hertzNear(between(turned, 0.015, 0.065), hertzOfMidi(69), rate), hertzOfMidi(69)), 0,
                20);
    EXPECT_NEAR(cents(hertzNear(between(turned, 0.155, 0.2), hertzOfMidi(66), rate), hertzOfMidi(66)), 0, 20);
}

TEST(PluckedString, PlaysOrnamentsSlowerWithASlowerRecord) {
    StringGesture gesture = plain(67, 0.6, 2.0);
    gesture.grace[0] = 65;
    gesture.graceCount = 1;
    const double atFullSpeed = gesture.mainStart();
    gesture.stretch = 2;
    EXPECT_DOUBLE_EQ(gesture.mainStart(), 2 * atFullSpeed);
}

TEST(PluckedString, RingsOnAsAGuitarDoes) {
    // G4 is 60 dB down after three to five seconds (value from memory).
    const auto out = sounded(plain(67, 0.6, 6.0), 5.1);
    const auto down = [&](double at) {
        return decibels(between(out, at - 0.05, at + 0.05)) - decibels(between(out, 0.0, 0.1));
    };
    EXPECT_GT(down(3.0), -60);
    EXPECT_LT(down(5.0), -60);
}

TEST(PluckedString, TrillsAudiblyToItsEnd) {
    for (const double stretch : {1.0, 2.0}) {
        StringGesture gesture = plain(67, 0.6, 2.1 * stretch);
        gesture.trill = 2;
        gesture.stretch = stretch;
        const auto out = sounded(gesture, 2.1 * stretch);
        const double each = 0.07 * stretch;
        for (int touch = 0; touch < 30; ++touch) {
            const double from = touch * each;
            EXPECT_NEAR(decibels(between(out, from, from + each)), decibels(between(out, 0, each)), 6)
                << touch;
            const double hertz = hertzOfMidi(touch % 2 == 0 ? 67 : 69);
            const double found = hertzNear(between(out, from + 0.015, from + each), hertz, rate);
            EXPECT_NEAR(cents(found, hertz), 0, 25) << touch;
        }
    }
}

TEST(PluckedString, SetsEachNoteOfAnOrnamentGoing) {
    StringGesture gesture = plain(67, 0.6, 1.0);
    gesture.grace[0] = 65;
    gesture.graceCount = 1;
    gesture.figure = {2, 0, -1};
    gesture.figureCount = 3;
    std::size_t before = 0;
    int touches = 0;
    for (double t = 0; t < 1; t += 0.001) {
        const std::size_t now = gesture.touchAt(t);
        EXPECT_EQ(now != before, t > 0 && gesture.pitchAt(t) != gesture.pitchAt(t - 0.001)) << t;
        touches += now != before;
        before = now;
    }
    EXPECT_EQ(touches, 4) << "the note's own, three of the turn, the first one being plucked";
    EXPECT_EQ(plain(67).touchAt(1.5), 0u);
}

TEST(PluckedString, SoundsAlikeWhereverItsDelayLineStands) {
    // What sounded before moves the place in the line that is written next.
    const auto touchedAfter = [](std::size_t before) {
        PluckedString string;
        string.setRate(SampleRate{rate});
        string.pluck(plain(64));
        std::vector<float> gone(before, 0.0f);
        string.render(gone);
        string.pluck(plain(67));
        std::vector<float> out(4000, 0.0f);
        string.render(std::span(out).first(2000));
        string.slurTo(plain(69));
        string.render(std::span(out).subspan(2000));
        return out;
    };
    const std::vector<float> first = touchedAfter(0);
    for (std::size_t before = 64; before <= 16384; before += 64)
        EXPECT_EQ(touchedAfter(before), first) << before;
}

} // namespace
} // namespace earwright
