#include "core/engine/KWeighting.h"
#include "core/engine/RecordLevel.h"
#include "tests/core/engine/HeldRecording.h"

#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace earwright {
namespace {

std::vector<float> stereoSine(double hertz, double decibels, int rate, double seconds) {
    std::vector<float> samples;
    for (int i = 0; i < static_cast<int>(seconds * rate); ++i) {
        const auto sample = static_cast<float>(std::pow(10, decibels / 20) *
                                               std::sin(2 * std::numbers::pi * hertz * i / rate));
        samples.insert(samples.end(), {sample, sample});
    }
    return samples;
}

double loudness(const Power& power) {
    return loudnessOffset + 10 * std::log10(power.weighted);
}

TEST(KWeighting, HasTheStandardsCoefficientsAtFortyEightKilohertz) {
    // ITU-R BS.1770-4, tables 1 and 2.
    constexpr KWeighting::Coefficients shelf{1.53512485958697, -2.69169618940638, 1.19839281085285,
                                             -1.69065929318241, 0.73248077421585};
    constexpr KWeighting::Coefficients pass{1, -2, 1, -1.99004745483398, 0.99007225036621};
    KWeighting weighting;
    weighting.setRate(SampleRate{48000});
    for (std::size_t i = 0; i < shelf.size(); ++i) {
        EXPECT_NEAR(weighting.shelf()[i], shelf[i], 1e-6);
        EXPECT_NEAR(weighting.highPass()[i], pass[i], 1e-6);
    }
}

TEST(RecordLevel, MeasuresTheTestToneOfTheStandardAtAnyRate) {
    // EBU Tech 3341, test signals 1 and 2: a stereo sine of 1,000 Hz at −23 and −33 dBFS a channel has −23
    // and −33 LUFS, within 0.1.
    for (const int rate : {44100, 48000, 96000})
        for (const double level : {-23.0, -33.0}) {
            RecordLevel record;
            record.take(tests::held(stereoSine(1000, level, rate, 6), rate, 2));
            EXPECT_NEAR(loudness(record.loudestNear(Frames(3 * rate))), level, 0.1) << rate;
            EXPECT_NEAR(loudness(*record.usualNear(Frames(3 * rate))), level, 0.1) << rate;
        }
}

TEST(RecordLevel, TakesMonoAsHeardOnBothEars) {
    const auto stereo = stereoSine(1000, -20, 44100, 4);
    std::vector<float> mono;
    for (std::size_t i = 0; i < stereo.size(); i += 2)
        mono.push_back(stereo[i]);
    RecordLevel record;
    record.take(tests::held(mono, 44100, 1));
    EXPECT_NEAR(loudness(record.loudestNear(Frames(88200))), -20, 0.1);
}

TEST(RecordLevel, LeavesPausesOutOfTheUsualAndKnowsTheLoudestNearby) {
    // 2 s at −20, 1 s of silence, 2 s at −40.
    auto samples = stereoSine(1000, -20, 48000, 2);
    samples.resize(samples.size() + 2 * 48000);
    const auto soft = stereoSine(1000, -40, 48000, 2);
    samples.insert(samples.end(), soft.begin(), soft.end());
    RecordLevel record;
    record.take(tests::held(samples, 48000, 2));
    EXPECT_NEAR(loudness(*record.usualNear(Frames(0))), -20, 0.5);
    EXPECT_NEAR(loudness(record.loudestNear(Frames(3 * 48000))), -20, 0.1) << "a second ago";
    EXPECT_NEAR(loudness(record.loudestNear(Frames(4 * 48000))), -40, 0.5) << "that is over";
    RecordLevel silent;
    silent.take(tests::held(std::vector<float>(96000), 48000, 1));
    EXPECT_FALSE(silent.usualNear(Frames(48000)).has_value());
}

} // namespace
} // namespace earwright
