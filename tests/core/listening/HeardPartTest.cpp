#include "core/listening/HeardPart.h"

#include "core/listening/PitchHint.h"
#include "core/listening/RecordingEvidence.h"
#include "tests/core/listening/SyntheticSound.h"

#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace earwright {
namespace {

using namespace tests;

constexpr Range<Seconds> passage{Seconds(1.0), Seconds(2.0)};

AnalysisSound sines(const std::vector<double>& hertz, double seconds = 3) {
    AnalysisSound sound{silence(Seconds(seconds)), {}};
    for (std::size_t i = 0; i < sound.left.size(); ++i)
        for (const double each : hertz)
            sound.left[i] += static_cast<float>(
                0.1 * std::sin(2 * std::numbers::pi * each * static_cast<double>(i) / analysisRate.hertz));
    return sound;
}

double power(std::span<const float> samples) {
    double sum = 0;
    for (const float sample : samples)
        sum += static_cast<double>(sample) * static_cast<double>(sample);
    return sum / static_cast<double>(samples.size());
}

TEST(HeardPart, CutsAPassageWithItsSurroundingsOut) {
    const AnalysisSound heard = heardPart(sines({440}), passage, {Focus::All, Band{200, 2000}});
    EXPECT_EQ(heard.firstSample, 11025);
    EXPECT_EQ(heard.left.size(), 2u * 22050u);
}

TEST(HeardPart, LeavesABandWhereItWasInTime) {
    const AnalysisSound both = sines({100, 800});
    const AnalysisSound alone = sines({800});
    const AnalysisSound heard = heardPart(both, passage, {Focus::All, Band{400, 1600}});
    // In the middle of the band twice 0.01 dB are lost at most, and nothing is late.
    for (std::size_t i = 8000; i < 36000; ++i)
        ASSERT_NEAR(heard.left[i], alone.left[i + 11025], 0.003) << i;
}

TEST(HeardPart, FiltersTwiceAsSteeplyAsTheFilterItself) {
    // Butterworth's 48.2 dB an octave from the edge, twice.
    const AnalysisSound heard = heardPart(sines({200}), passage, {Focus::All, Band{400, 1600}});
    EXPECT_LT(10 * std::log10(power(std::span(heard.left).subspan(8000, 28000)) / 0.005), -90);
}

TEST(HeardPart, TakesOnePartOfTheStereoPicture) {
    AnalysisSound sound{silence(3.0_s), silence(3.0_s)};
    addTone(sound.left, {0.0_s, 3.0_s}, 50);
    addTone(sound.left, {0.0_s, 3.0_s}, 69);
    addTone(sound.right, {0.0_s, 3.0_s}, 69);
    const auto of = [&](Focus focus) { return heardPart(sound, passage, {focus, std::nullopt}); };
    EXPECT_TRUE(of(Focus::All).isStereo());
    const AnalysisSound right = of(Focus::Right);
    EXPECT_FALSE(right.isStereo());
    for (std::size_t i = 0; i < right.left.size(); ++i)
        ASSERT_EQ(right.left[i], sound.right[i + 11025]);
    const AnalysisSound sides = of(Focus::Sides);
    for (std::size_t i = 0; i < sides.left.size(); ++i)
        ASSERT_NEAR(sides.left[i], 0.5f * (sound.left[i + 11025] - sound.right[i + 11025]), 1e-6);
    // The centre holds the common tone: what else is in it is under a tenth of it.
    std::vector<float> rest = of(Focus::Centre).left;
    for (std::size_t i = 0; i < rest.size(); ++i)
        rest[i] -= right.left[i];
    EXPECT_LT(power(rest), 0.1 * power(right.left));
}

TEST(HeardPart, HasNoSidesInMono) {
    EXPECT_EQ(power(heardPart(sines({440}), passage, {Focus::Sides, std::nullopt}).left), 0.0);
}

TEST(HeardPart, LetsAHintHearWhatABandUncovers) {
    // A loud note in the bass and a soft one two octaves and a half above, begun together.
    AnalysisSound sound{silence(3.0_s), {}};
    constexpr Range<Seconds> span{Seconds(1.2), Seconds(1.7)};
    addTone(sound.left, span, 43, 0.3f);
    addTone(sound.left, span, 74, 0.04f);
    const auto recording = RecordingEvidence::listen(sound);
    ASSERT_TRUE(recording);
    const auto hintThrough = [&](const HeardPart& part) {
        const auto evidence = recording->passage(passage, part);
        EXPECT_TRUE(evidence);
        return pitchHints(*evidence, {span})[0].bestMidi;
    };
    EXPECT_EQ(hintThrough({}), 43);
    EXPECT_EQ(hintThrough({Focus::All, Band{20, 200}}), 43);
    EXPECT_EQ(hintThrough({Focus::All, Band{520, 8000}}), 74);
}

TEST(HeardPart, LetsAHintHearOneSide) {
    AnalysisSound sound{silence(3.0_s), silence(3.0_s)};
    constexpr Range<Seconds> span{Seconds(1.2), Seconds(1.7)};
    addTone(sound.left, span, 52, 0.2f);
    addTone(sound.right, span, 64, 0.2f);
    const auto recording = RecordingEvidence::listen(sound);
    ASSERT_TRUE(recording);
    for (const auto& [focus, midi] : {std::pair(Focus::Left, 52), std::pair(Focus::Right, 64)}) {
        const auto evidence = recording->passage(passage, HeardPart{focus, std::nullopt});
        ASSERT_TRUE(evidence);
        EXPECT_EQ(pitchHints(*evidence, {span})[0].bestMidi, midi);
    }
}

} // namespace
} // namespace earwright
