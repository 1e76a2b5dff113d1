#include "core/engine/PluckedString.h"

#include "core/engine/VoiceBank.h"
#include "tests/core/engine/HeldRecording.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using tests::cents;
using tests::hertzNear;
using tests::hertzOfMidi;
using tests::rootMeanSquare;

constexpr int rate = 44100;

StringGesture plain(double pitch, double loudness = 0.6, double seconds = 2.0) {
    StringGesture gesture;
    gesture.pitch = pitch;
    gesture.loudness = loudness;
    gesture.seconds = seconds;
    return gesture;
}

std::vector<float> sounded(const StringGesture& gesture, double seconds, int hertz = rate) {
    PluckedString string;
    string.setRate(SampleRate{hertz});
    string.pluck(gesture);
    std::vector<float> out(static_cast<std::size_t>(seconds * hertz), 0.0f);
    string.render(out);
    return out;
}

std::span<const float> between(const std::vector<float>& samples, double from, double to, int hertz = rate) {
    const auto first = static_cast<std::size_t>(from * hertz);
    return std::span(samples).subspan(first, static_cast<std::size_t>((to - from) * hertz));
}

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

TEST(VoiceBank, SlursWithoutAnotherPluck) {
    VoiceBank bank;
    bank.setRate(SampleRate{rate});
    bank.play(plain(64, 0.6, 0.25), false);
    std::vector<float> first(rate / 4, 0.0f);
    bank.render(first);
    bank.play(plain(67, 0.6, 0.5), true);
    std::vector<float> second(rate / 2, 0.0f);
    bank.render(second);
    EXPECT_LT(std::abs(cents(hertzNear(between(second, 0.05, 0.4), hertzOfMidi(67), rate), hertzOfMidi(67))),
              3);
    // No attack: the first 20 ms after the slur are not louder than those before it.
    EXPECT_LT(rootMeanSquare(between(second, 0.0, 0.02)), 1.05 * rootMeanSquare(between(first, 0.22, 0.249)));
    EXPECT_GT(rootMeanSquare(between(second, 0.05, 0.1)), 0.01) << "it still sounds";
}

TEST(VoiceBank, PlucksASlurSoftlyThatComesFromNowhere) {
    VoiceBank bank;
    bank.setRate(SampleRate{rate});
    bank.play(plain(67, 0.6, 0.5), true);
    std::vector<float> out(rate / 4, 0.0f);
    bank.render(out);
    EXPECT_GT(rootMeanSquare(between(out, 0.0, 0.1)), 0.01);
}

TEST(VoiceBank, PlaysMoreNotesThanItHasStrings) {
    VoiceBank bank;
    bank.setRate(SampleRate{rate});
    for (int i = 0; i < 40; ++i) {
        bank.play(plain(50 + i), false);
        std::vector<float> out(500, 0.0f);
        bank.render(out);
        for (const float sample : out)
            ASSERT_LT(std::abs(sample), 8.0f);
    }
    bank.releaseAll();
    std::vector<float> tail(rate, 0.0f);
    bank.render(tail);
    EXPECT_FALSE(bank.isSounding());
}

} // namespace
} // namespace earwright
