#include "core/listening/TuningDrift.h"

#include "core/listening/PitchHint.h"
#include "core/listening/RecordingEvidence.h"
#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace earwright {
namespace {

using namespace tests;

constexpr double length = 60;

/// Thirty cents either way and back, once in the recording.
double slowDrift(double time) {
    return 30 * std::sin(2 * std::numbers::pi * time / length);
}

/// Partials of equal weight every tenth of a second; intonation scatters them by up to four cents.
std::vector<TunedPartial> partials(double (*cents)(double)) {
    std::vector<TunedPartial> all;
    for (int i = 0; i < 10 * static_cast<int>(length); ++i) {
        const double time = 0.1 * i;
        all.push_back({Seconds(time), 100.0 * (i % 7) + cents(time) + 4 * std::sin(1.7 * i), 1});
    }
    return all;
}

TEST(TuningCurve, LiesStraightBetweenItsKnotsAndStaysAtItsEnds) {
    const TuningCurve curve(5, 2.0_s, {10, 20, -10});
    EXPECT_DOUBLE_EQ(curve.centsAt(1.0_s), 15);
    EXPECT_DOUBLE_EQ(curve.centsAt(3.0_s), 5);
    EXPECT_DOUBLE_EQ(curve.centsAt(-1.0_s), 10);
    EXPECT_DOUBLE_EQ(curve.centsAt(100.0_s), -10);
    EXPECT_DOUBLE_EQ(curve.reach(), 30);
    EXPECT_TRUE(curve.drifts());
}

TEST(TuningCurve, IsTheSameThroughoutWithoutKnots) {
    const TuningCurve curve(-12);
    EXPECT_DOUBLE_EQ(curve.centsAt(77.0_s), -12);
    EXPECT_DOUBLE_EQ(curve.reach(), 0);
    EXPECT_FALSE(curve.drifts());
}

TEST(TuningDrift, FollowsATapeThatRunsSlowAndFast) {
    const TuningCurve curve = followTuning(partials(slowDrift), 0, Seconds(length));
    ASSERT_TRUE(curve.drifts());
    // A bell of three seconds lowers a sine of 60 s by exp(−(2π·3/60)²/2) = 0.95: 1.4 cents of 30; at the
    // ends, where one side is missing, it lags by its mean distance of 2.4 s, 7.5 cents at 3.1 cents a
    // second.
    for (double time = 8; time < length - 8; time += 1)
        EXPECT_NEAR(curve.centsAt(Seconds(time)), slowDrift(time), 3) << time;
    EXPECT_NEAR(curve.centsAt(0.0_s), slowDrift(0), 9);
}

TEST(TuningDrift, GoesOnBeyondHalfASemitone) {
    const auto rising = [](double time) { return -40 + 2.5 * time; };
    const TuningCurve curve = followTuning(partials(rising), -40, Seconds(length));
    ASSERT_TRUE(curve.drifts());
    // 110 cents higher after 44 s, however the whole is read.
    EXPECT_NEAR((curve.centsAt(52.0_s) - curve.centsAt(8.0_s)), 110, 4);
}

TEST(TuningDrift, IsNoneWherePlayersAreMerelyHuman) {
    const auto steady = [](double) { return 17.0; };
    EXPECT_EQ(followTuning(partials(steady), 17, Seconds(length)), TuningCurve(17));
    const auto swaying = [](double time) { return 3 * std::sin(time); };
    EXPECT_FALSE(followTuning(partials(swaying), 0, Seconds(length)).drifts());
    EXPECT_FALSE(followTuning({}, 3, Seconds(length)).drifts());
}

TEST(TuningDrift, DoesNotFollowWhatIsFaintInAPause) {
    // The line pauses for 15 s over a hum that lies 45 cents higher and glides on to where a semitone up is
    // nearer: what sounds afterwards is as it was.
    std::vector<TunedPartial> all;
    for (const TunedPartial& partial : partials([](double) { return 5.0; }))
        if (partial.time < 20.0_s || partial.time > 35.0_s) all.push_back(partial);
    for (int i = 0; i < 150; ++i)
        all.push_back({Seconds(20 + 0.1 * i), 25 + 0.6 * i, 0.001});
    std::sort(all.begin(), all.end(),
              [](const TunedPartial& a, const TunedPartial& b) { return a.time < b.time; });
    EXPECT_EQ(followTuning(all, 5, Seconds(length)), TuningCurve(5));
}

TEST(TuningDrift, KeepsPitchesNamedThatHaveDriftedByThreeQuartersOfASemitone) {
    // Tones that sink from 37 cents sharp to 37 flat: at the ends neither is near the tuning of the whole.
    AnalysisSound sound{silence(Seconds(length)), {}};
    std::vector<Range<Seconds>> spans;
    std::vector<int> played;
    for (int i = 0; i < 118; ++i) {
        const double begin = 0.5 + 0.5 * i;
        spans.push_back({Seconds(begin), Seconds(begin + 0.42)});
        played.push_back(60 + (i * 5) % 12);
        addTone(sound.left, spans.back(), played.back() + 0.37 - 0.74 * begin / length);
    }
    addNoise(sound.left, 0.001f);
    const auto recording = RecordingEvidence::listen(sound);
    ASSERT_TRUE(recording);
    EXPECT_NEAR(recording->tuningCurve().reach(), 74, 10);
    const auto evidence = recording->passage({Seconds(0), Seconds(length)});
    ASSERT_TRUE(evidence);
    const auto hints = pitchHints(*evidence, spans);
    for (std::size_t i = 0; i < spans.size(); ++i)
        EXPECT_EQ(hints[i].bestMidi, played[i]) << i;
}

} // namespace
} // namespace earwright
