#include "core/listening/TonePitch.h"

#include "tests/core/listening/OneTone.h"

#include <gtest/gtest.h>
#include <random>

namespace earwright {
namespace {

using tests::timbres;
using tests::toneOf;

constexpr int lowE = 40;
constexpr int highC = 96;

// Equal temperament at A4 = 440 Hz (ISO 16): what is put in has to come out. 30 cents are half of what would
// tell another semitone; a parabola through the dip of a C7, 21 samples a period, is a few cents off, a stiff
// string's upper partials sharpen its period by up to 12.
TEST(TonePitch, IsFoundFromE2ToC7InEveryTimbreAndRate) {
    for (const int hertz : {44100, 48000})
        for (const auto& timbre : timbres())
            for (int midi = lowE; midi <= highC; ++midi) {
                const auto sound = toneOf(timbre, midi, 0.12, SampleRate{hertz});
                const auto pitch = tonePitch(sound, SampleRate{hertz});
                ASSERT_TRUE(pitch);
                EXPECT_NEAR(pitch->midi, midi, 0.3) << timbre.name << ", MIDI " << midi << " at " << hertz;
                EXPECT_GT(pitch->clarity, 0.85) << timbre.name << ", MIDI " << midi << " at " << hertz;
            }
}

TEST(TonePitch, IsFoundDownToALowEOfABass) {
    const auto sound = toneOf(timbres()[1], 28, 0.12, SampleRate{44100});
    EXPECT_NEAR(tonePitch(sound, SampleRate{44100})->midi, 28, 0.1);
}

TEST(TonePitch, BetweenTheKeysIsToldWithinAFewCents) {
    for (const double midi : {45.37, 60.5, 72.81, 84.25}) {
        const auto sound = toneOf(timbres()[1], midi, 0.12, SampleRate{48000});
        EXPECT_NEAR(tonePitch(sound, SampleRate{48000})->midi, midi, 0.05) << midi;
    }
}

TEST(TonePitch, OfNoiseIsNotClear) {
    std::mt19937 random(3);
    std::normal_distribution<float> noise(0, 0.1f);
    for (int i = 0; i < 20; ++i) {
        std::vector<float> sound(toneWindow(SampleRate{44100}));
        for (float& sample : sound)
            sample = noise(random);
        EXPECT_LT(tonePitch(sound, SampleRate{44100})->clarity, 0.6);
    }
}

TEST(TonePitch, OfSilenceOrTooLittleSoundIsNone) {
    const std::vector<float> silence(5000);
    EXPECT_FALSE(tonePitch(silence, SampleRate{44100}));
    const auto sound = toneOf(timbres()[0], 69, 0.12, SampleRate{44100});
    EXPECT_FALSE(tonePitch(std::span(sound).first(toneWindow(SampleRate{44100}) - 1), SampleRate{44100}));
    EXPECT_FALSE(tonePitch({}, SampleRate{44100}));
}

} // namespace
} // namespace earwright
