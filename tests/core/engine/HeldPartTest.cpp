#include "core/engine/HeldPart.h"

#include "tests/core/engine/HeldRecording.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>
#include <random>

namespace earwright {
namespace {

constexpr int rate = 44100;

struct Partial {
    double hertz;
    double left;
    double right;
};

/// Steady partials in stereo.
std::vector<float> tones(const std::vector<Partial>& partials, double seconds) {
    std::vector<float> samples;
    for (int i = 0; i < static_cast<int>(seconds * rate); ++i) {
        double left = 0;
        double right = 0;
        for (const Partial& partial : partials) {
            const double wave = std::sin(2 * std::numbers::pi * partial.hertz * i / rate + partial.hertz);
            left += partial.left * wave;
            right += partial.right * wave;
        }
        samples.insert(samples.end(), {static_cast<float>(left), static_cast<float>(right)});
    }
    return samples;
}

/// Harmonics that fall off as 1/n, as strings and reeds have them.
std::vector<Partial> note(double midi, double level) {
    std::vector<Partial> partials;
    for (int n = 1; n <= 8; ++n)
        partials.push_back({n * tests::hertzOfMidi(midi), level / n, level / n});
    return partials;
}

/// A channel of what is held.
std::vector<float> heldSound(const std::shared_ptr<Recording>& recording, double place, double seconds,
                             double semitones = 0, std::size_t channel = 0, int outputRate = 48000) {
    RecordStart start;
    start.recording = recording;
    start.from = recording->rate().frames(Seconds(place));
    start.semitones = semitones;
    start.outputRate = SampleRate{outputRate};
    HeldPart part;
    part.start(start);
    const auto wide = static_cast<std::size_t>(part.channels());
    std::vector<float> block(256 * wide);
    std::vector<float> out;
    while (out.size() < static_cast<std::size_t>(seconds * outputRate)) {
        part.produce(block);
        for (std::size_t i = channel; i < block.size(); i += wide)
            out.push_back(block[i]);
    }
    return out;
}

/// Level over windows of 50 ms, in decibels: the loudest against the softest.
double pulsing(const std::vector<float>& samples, int at = 48000) {
    const auto window = static_cast<std::size_t>(at / 20);
    double least = 1e9;
    double most = 0;
    for (std::size_t i = 0; i + window <= samples.size(); i += window / 4) {
        const double level = tests::rootMeanSquare(std::span(samples).subspan(i, window));
        least = std::min(least, level);
        most = std::max(most, level);
    }
    return 20 * std::log10(most / least);
}

TEST(HeldPart, HoldsATonesPitchAndLevel) {
    for (const double midi : {33.0, 45.0, 57.3, 69.0, 84.0}) {
        const auto sound = tests::held(tones({{tests::hertzOfMidi(midi), 0.3, 0.3}}, 2), rate, 2);
        const auto out = heldSound(sound, 1, 2);
        EXPECT_LT(std::abs(tests::cents(tests::hertzNear(out, tests::hertzOfMidi(midi), 48000),
                                        tests::hertzOfMidi(midi))),
                  1.0);
        EXPECT_NEAR(tests::rootMeanSquare(out), 0.3 / std::sqrt(2), 0.01);
        // A window of 50 ms holds 2.75 periods of the lowest tone; what is left over alone is 0.5 dB.
        EXPECT_LT(pulsing(out), midi < 40 ? 0.6 : 0.3) << midi;
    }
}

TEST(HeldPart, RetunesByTheSemitonesAndCentsAsked) {
    const auto sound = tests::held(tones(note(57, 0.2), 2), rate, 2);
    for (const double semitones : {-12.0, -5.37, 0.5, 7.0, 12.0}) {
        const double expected = tests::hertzOfMidi(57 + semitones);
        const auto out = heldSound(sound, 1, 2, semitones);
        EXPECT_LT(std::abs(tests::cents(tests::hertzNear(out, expected, 48000), expected)), 1.0) << semitones;
        EXPECT_LT(pulsing(out), 1.0);
    }
}

TEST(HeldPart, HoldsAChordWithoutPulsing) {
    std::vector<Partial> chord;
    for (const double midi : {48.0, 55.0, 64.0, 70.0})
        for (const Partial& partial : note(midi, 0.08))
            chord.push_back(partial);
    const auto out = heldSound(tests::held(tones(chord, 2), rate, 2), 1, 3);
    for (const double midi : {48.0, 55.0, 64.0, 70.0})
        EXPECT_LT(std::abs(tests::cents(tests::hertzNear(out, tests::hertzOfMidi(midi), 48000),
                                        tests::hertzOfMidi(midi))),
                  3.0)
            << midi;
    RecordProperty("pulsing_dB", std::to_string(pulsing(out)));
    EXPECT_LT(pulsing(out), 2.0) << "within 1 dB up and down";
}

TEST(HeldPart, KeepsTheStereoPicture) {
    const auto sound = tests::held(tones({{220, 0.3, 0.03}, {660, 0.02, 0.2}}, 2), rate, 2);
    const auto levelAt = [](const std::vector<float>& samples, double hertz) {
        std::complex<double> sum = 0;
        for (std::size_t i = 0; i < 48000; ++i)
            sum += static_cast<double>(samples[i]) *
                   std::polar(1.0 / 24000, -2 * std::numbers::pi * hertz * static_cast<double>(i) / 48000);
        return std::abs(sum);
    };
    const auto left = heldSound(sound, 1, 1.1, 0, 0);
    const auto right = heldSound(sound, 1, 1.1, 0, 1);
    EXPECT_NEAR(levelAt(left, 220), 0.3, 0.01);
    EXPECT_NEAR(levelAt(right, 220), 0.03, 0.002);
    EXPECT_NEAR(levelAt(left, 660), 0.02, 0.002);
    EXPECT_NEAR(levelAt(right, 660), 0.2, 0.01);
}

TEST(HeldPart, HoldsTheToneAfterANoisyAttack) {
    std::vector<float> samples = tones({{330, 0.3, 0.3}}, 2);
    std::minstd_rand random(5);
    std::uniform_real_distribution<float> noise(-0.5f, 0.5f);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double time = static_cast<double>(i / 2) / rate - 1;
        if (time < 0) samples[i] = 0; // silence up to the attack
        if (time >= 0 && time < 0.015) samples[i] += noise(random);
    }
    const HeldInstant instant = HeldInstant::of(*tests::held(samples, rate, 2), Frames(rate));
    EXPECT_GT(instant.middle, Frames(rate + rate / 50));
    EXPECT_LE(instant.middle, Frames(rate + 60 * rate / 1000));
    const auto out = heldSound(tests::held(samples, rate, 2), 1, 1);
    EXPECT_LT(std::abs(tests::cents(tests::hertzNear(out, 330, 48000), 330)), 3.0);
}

TEST(HeldPart, IsNoLouderThanTheRecordingIsForLongerThanAnInstant) {
    // A short, loud note in near silence: held as it stands it would be much louder than the 400 ms around
    // it.
    std::vector<float> samples = tones({{330, 0.5, 0.5}}, 2);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double time = static_cast<double>(i / 2) / rate;
        if (time < 0.95 || time > 1.05) samples[i] *= 0.001f;
    }
    RecordStart start;
    start.recording = tests::held(samples, rate, 2);
    start.from = Frames(rate);
    start.outputRate = SampleRate{rate};
    HeldPart part;
    std::vector<float> block(2 * rate);
    part.start(start);
    part.keepBelow({0.02, 0.02});
    part.produce(block);
    // Mean squares of both ears together are to be 0.02: 0.1 on each.
    EXPECT_NEAR(tests::rootMeanSquare(block), 0.1, 0.01);
    part.start(start);
    part.keepBelow({1, 1});
    part.produce(block);
    EXPECT_GT(tests::rootMeanSquare(block), 0.15) << "what is soft enough stays as it is";
}

TEST(HeldPart, StaysAtASteadyPlace) {
    const auto sound = tests::held(tones(note(50, 0.2), 2), rate, 2);
    EXPECT_EQ(HeldInstant::of(*sound, Frames(30000)).middle, Frames(30000));
}

TEST(HeldPart, IsSilentInSilenceAndBeyondTheRecording) {
    const auto sound = tests::held(std::vector<float>(2 * rate, 0.0f), rate, 1);
    for (const double place : {0.0, 1.0, 2.0, 50.0})
        for (const float sample : heldSound(sound, place, 0.2))
            ASSERT_EQ(sample, 0.0f);
}

} // namespace
} // namespace earwright
