#include "core/listening/Tuning.h"

#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>

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

TEST(Tuning, FindsHowFarTheRecordingIsOff) {
    // Partials 3, 5, 7 lie 2, −14 and −31 cents beside equal temperament; leaving them out leaves under 1.
    for (const double cents : {-45.0, -30.0, -12.0, 0.0, 5.0, 23.0, 44.0}) {
        const auto tuning = Tuning::of(scaleTuned(cents));
        ASSERT_TRUE(tuning);
        EXPECT_NEAR(tuning->cents, cents, 1) << cents;
        EXPECT_GT(tuning->confidence, 0.7);
    }
}

TEST(Tuning, GivesTheFrequencyOfTheRecordingsOwnA) {
    // 440 · 2^(−50/1200) = 427.47, 440 · 2^(25/1200) = 446.40 (ISO 16's tone and the definition of the cent).
    EXPECT_NEAR((Tuning{-50, 1}.referenceHertz()), 427.47, 0.01);
    EXPECT_NEAR((Tuning{25, 1}.referenceHertz()), 446.40, 0.01);
}

TEST(Tuning, IsNotSureOfSilenceOrNoise) {
    const auto quiet = Tuning::of(silence(2.0_s));
    ASSERT_TRUE(quiet);
    EXPECT_EQ(quiet->confidence, 0);
    EXPECT_EQ(quiet->cents, 0);
    std::vector<float> noise = silence(4.0_s);
    addNoise(noise, 0.1f);
    const auto rough = Tuning::of(noise);
    ASSERT_TRUE(rough);
    EXPECT_LT(rough->confidence, 0.3);
}

TEST(Tuning, AnswersForASoundShorterThanItsWindow) {
    std::vector<float> sound = silence(0.2_s);
    addTone(sound, {0.0_s, 0.2_s}, 69.2);
    const auto tuning = Tuning::of(sound);
    ASSERT_TRUE(tuning);
    EXPECT_NEAR(tuning->cents, 20, 2);
    EXPECT_TRUE(Tuning::of({}));
}

TEST(Tuning, StopsWhenAsked) {
    std::stop_source stop;
    stop.request_stop();
    const auto tuning = Tuning::of(scaleTuned(0), stop.get_token());
    ASSERT_FALSE(tuning);
    EXPECT_EQ(tuning.error().kind, ErrorKind::Cancelled);
}

} // namespace
} // namespace earwright
