#include "core/listening/PitchTrace.h"

#include "core/listening/TraceFeatures.h"
#include "tests/core/listening/SyntheticSound.h"

#include <cmath>
#include <functional>
#include <gtest/gtest.h>
#include <numbers>

namespace earwright {
namespace {

using namespace tests;

const Range<Seconds> whole{0.5_s, 1.3_s};

/// Ten partials whose pitch moves as asked, in seconds from the note's start; the phase is the running sum of
/// the frequency, so that the pitch is known at every sample.
TraceFeatures heardOf(const std::function<double(double)>& midiAt, double bassLevel = 0) {
    AnalysisSound sound{silence(Seconds(1.8)), {}};
    double phase = 0;
    const auto first = static_cast<std::size_t>(analysisRate.frames(whole.begin).value);
    const auto count = static_cast<std::size_t>(analysisRate.frames(whole.length()).value);
    for (std::size_t i = 0; i < count; ++i) {
        phase += hertzOf(midiAt(static_cast<double>(i) / analysisRate.hertz)) / analysisRate.hertz;
        for (int h = 1; h <= 10; ++h)
            sound.left[first + i] += static_cast<float>(0.1 / h * std::sin(2 * std::numbers::pi * h * phase));
    }
    if (bassLevel > 0) {
        addTone(sound.left, {0.3_s, 1.6_s}, 38, static_cast<float>(bassLevel));
        addTone(sound.left, {0.3_s, 1.6_s}, 59, static_cast<float>(bassLevel / 3));
    }
    const StereoViews views(sound, {0.2_s, 1.6_s});
    const PitchTrace trace = PitchTrace::of(views, 0, 0, {0.38_s, 1.35_s}, 69);
    return featuresOf(trace, whole, 69);
}

TEST(PitchTrace, FindsNothingToSayOfAPlainTone) {
    const TraceFeatures heard = heardOf([](double) { return 69.0; });
    EXPECT_NEAR(heard.centreCents, 0, 3) << "a third of the step of ten cents";
    EXPECT_FALSE(heard.slideIn);
    EXPECT_FALSE(heard.bendCents);
    EXPECT_FALSE(heard.vibrato);
    EXPECT_FALSE(heard.trill);
}

TEST(PitchTrace, MeasuresRateAndDepthOfAVibratoAloneAndOverOtherNotes) {
    // 30 cents either way, 5.6 a second: within what singers and strings do (Sundberg 1987). The window of 46
    // ms takes about sinc(5.6 · 0.023) off the depth, 3 %.
    for (const double bass : {0.0, 0.2}) {
        const TraceFeatures heard =
            heardOf([](double t) { return 69 + 0.30 * std::sin(2 * std::numbers::pi * 5.6 * t); }, bass);
        ASSERT_TRUE(heard.vibrato);
        EXPECT_NEAR(heard.vibrato->hertz, 5.6, 0.15);
        EXPECT_NEAR(heard.vibrato->cents, 30, 5);
        EXPECT_FALSE(heard.trill);
    }
}

TEST(PitchTrace, TellsASlideFromBelowFromALeap) {
    // The middle three fifths of a straight glide of 100 ms take 60 ms.
    const TraceFeatures slid = heardOf([](double t) { return 69 - 2 * std::max(0.0, 1 - t / 0.1); });
    ASSERT_TRUE(slid.slideIn);
    EXPECT_NEAR(slid.slideIn->cents, -200, 50) << "its start lies under the window that opens on silence";
    EXPECT_NEAR(slid.slideIn->duration.value, 0.060, 0.020);
    const TraceFeatures leapt = heardOf([](double t) { return t < 0.1 ? 67.0 : 69.0; });
    EXPECT_FALSE(leapt.slideIn);
}

TEST(PitchTrace, CountsTheTurnsOfATrill) {
    for (const int semitones : {1, 2, 3}) {
        const TraceFeatures heard =
            heardOf([&](double t) { return 69 + (std::fmod(t, 1 / 6.0) < 1 / 12.0 ? 0 : semitones); });
        ASSERT_TRUE(heard.trill) << semitones;
        EXPECT_NEAR(heard.trill->semitones, semitones, 0.2);
        EXPECT_NEAR(heard.trill->hertz, 6, 0.4);
    }
}

TEST(PitchTrace, MeasuresABendThatIsHeld) {
    const TraceFeatures heard =
        heardOf([](double t) { return 69 + 2 * std::clamp((t - 0.25) / 0.1, 0.0, 1.0); });
    ASSERT_TRUE(heard.bendCents);
    EXPECT_NEAR(*heard.bendCents, 200, 12);
    EXPECT_FALSE(heard.slideIn);
}

TEST(PitchTrace, TakesNoLeapForABend) {
    // The note before still sounds into it.
    const TraceFeatures heard = heardOf([](double t) { return t < 0.15 ? 66.0 : 69.0; });
    EXPECT_GE(heard.clearShare, 0.6) << "it must be able to say so";
    EXPECT_FALSE(heard.bendCents);
}

} // namespace
} // namespace earwright
