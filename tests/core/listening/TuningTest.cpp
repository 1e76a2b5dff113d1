#include "core/listening/Tuning.h"

#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace earwright {
namespace {

using namespace tests;

/// A scale from G3 up, each tone with ten partials, all of them this far from equal temperament on 440 Hz.
std::vector<float> scaleTuned(double cents) {
    std::vector<float> sound = silence(5.0_s);
    double at = 0;
    for (const int midi : {55, 57, 59, 60, 62, 64, 66, 67, 69, 71, 72, 74}) {
        addTone(sound, {Seconds(at), Seconds(at + 0.38)}, midi + cents / 100);
        at += 0.4;
    }
    addNoise(sound, 0.001f);
    return sound;
}

Result<Tuning> tuningOf(std::span<const float> sound, std::stop_token stop = {}) {
    const auto timeOf = [](std::size_t sample) {
        return analysisRate.seconds(Frames(static_cast<std::int64_t>(sample)));
    };
    const Seconds duration = timeOf(sound.size());
    const auto heard = HeardTuning::of(sound, timeOf, duration, std::move(stop));
    if (!heard) return heard.error();
    return heard->tuning;
}

TEST(Tuning, FindsHowFarTheRecordingIsOff) {
    // Partials 3, 5, 7 lie 2, −14 and −31 cents beside equal temperament; leaving them out leaves under 1.
    for (const double cents : {-45.0, -30.0, -12.0, 0.0, 5.0, 23.0, 44.0}) {
        const auto tuning = tuningOf(scaleTuned(cents));
        ASSERT_TRUE(tuning);
        EXPECT_NEAR(tuning->cents, cents, 1) << cents;
        EXPECT_GT(tuning->confidence, 0.7);
    }
}

/// A line of short tones, each of which slides up into its pitch from 95 cents below in its first 90 ms, as
/// horns are played.
std::vector<float> scoopedLineTuned(double cents) {
    constexpr double slide = 0.090;
    constexpr double length = 0.22;
    constexpr int partials = 10;
    std::vector<float> sound = silence(5.0_s);
    const auto count = static_cast<std::size_t>(length * analysisRate.hertz);
    std::size_t first = 0;
    for (const int midi : {60, 62, 63, 65, 67, 68, 70, 72, 70, 68, 67, 65, 63, 62, 60}) {
        double cycles = 0;
        for (std::size_t i = 0; i < count; ++i) {
            const double t = static_cast<double>(i) / analysisRate.hertz;
            const double below = 0.95 * std::max(0.0, 1 - t / slide);
            cycles += hertzOf(midi + cents / 100 - below) / analysisRate.hertz;
            const double envelope = std::min({1.0, t / 0.010, (length - t) / 0.010});
            for (int h = 1; h <= partials; ++h)
                sound[first + i] +=
                    static_cast<float>(0.1 * envelope / h * std::sin(2 * std::numbers::pi * h * cycles));
        }
        first += count;
    }
    addNoise(sound, 0.001f);
    return sound;
}

TEST(Tuning, IsNotPulledFlatByTonesThatAreSlidInto) {
    // Near half a semitone a pull of a few cents would read the recording from the other side.
    for (const double cents : {-46.0, -20.0, 0.0, 31.0, 46.0}) {
        const auto tuning = tuningOf(scoopedLineTuned(cents));
        ASSERT_TRUE(tuning);
        EXPECT_NEAR(tuning->cents, cents, 1.5) << cents;
    }
}

TEST(Tuning, GivesTheFrequencyOfTheRecordingsOwnA) {
    // 440 · 2^(−50/1200) = 427.47, 440 · 2^(25/1200) = 446.40 (ISO 16's tone and the definition of the cent).
    EXPECT_NEAR((Tuning{-50, 1}.referenceHertz()), 427.47, 0.01);
    EXPECT_NEAR((Tuning{25, 1}.referenceHertz()), 446.40, 0.01);
}

TEST(Tuning, IsNotSureOfSilenceOrNoise) {
    const auto quiet = tuningOf(silence(2.0_s));
    ASSERT_TRUE(quiet);
    EXPECT_EQ(quiet->confidence, 0);
    EXPECT_EQ(quiet->cents, 0);
    std::vector<float> noise = silence(4.0_s);
    addNoise(noise, 0.1f);
    const auto rough = tuningOf(noise);
    ASSERT_TRUE(rough);
    EXPECT_LT(rough->confidence, 0.3);
}

TEST(Tuning, AnswersForASoundShorterThanItsWindow) {
    std::vector<float> sound = silence(0.2_s);
    addTone(sound, {0.0_s, 0.2_s}, 69.2);
    const auto tuning = tuningOf(sound);
    ASSERT_TRUE(tuning);
    EXPECT_NEAR(tuning->cents, 20, 2);
    EXPECT_TRUE(tuningOf({}));
}

TEST(Tuning, StopsWhenAsked) {
    std::stop_source stop;
    stop.request_stop();
    const auto tuning = tuningOf(scaleTuned(0), stop.get_token());
    ASSERT_FALSE(tuning);
    EXPECT_EQ(tuning.error().kind, ErrorKind::Cancelled);
}

} // namespace
} // namespace earwright
