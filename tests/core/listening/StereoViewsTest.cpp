#include "core/listening/StereoViews.h"

#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

double power(std::span<const float> sound) {
    double sum = 0;
    for (const float sample : sound)
        sum += static_cast<double>(sample) * sample;
    return sum;
}

/// One tone left, another in the centre.
AnalysisSound leftAndCentre() {
    AnalysisSound sound{silence(2.0_s), silence(2.0_s)};
    addTone(sound.left, {0.0_s, 2.0_s}, 50);
    addTone(sound.left, {0.0_s, 2.0_s}, 69);
    addTone(sound.right, {0.0_s, 2.0_s}, 69);
    return sound;
}

TEST(StereoViews, HasOneViewOfAMonoRecording) {
    const AnalysisSound sound{silence(2.0_s), {}};
    const StereoViews views(sound, {0.5_s, 1.0_s});
    EXPECT_EQ(views.count(), 1u);
    EXPECT_EQ(views.view(0), View::Both);
}

TEST(StereoViews, HasOneViewWhereBothSidesAreAlike) {
    AnalysisSound sound{silence(2.0_s), {}};
    addTone(sound.left, {0.0_s, 2.0_s}, 60);
    sound.right = sound.left;
    EXPECT_EQ(StereoViews(sound, {0.5_s, 1.0_s}).count(), 1u);
}

TEST(StereoViews, ListensToSidesAndCentreOfAWidePicture) {
    const StereoViews views(leftAndCentre(), {0.5_s, 1.0_s});
    ASSERT_EQ(views.count(), 5u);
    EXPECT_EQ(views.view(3), View::Centre);
    // The right channel holds the centre tone alone. The centre view keeps it and loses most of the other:
    // what is left over is under a tenth (10 dB) of the tone.
    const auto right = views.sound(2);
    const auto centre = views.sound(3);
    std::vector<float> rest(centre.begin(), centre.end());
    for (std::size_t i = 0; i < rest.size(); ++i)
        rest[i] -= right[i];
    EXPECT_LT(power(rest), 0.1 * power(right));
}

TEST(StereoViews, HearsAtTheSidesOnlyWhatTheChannelsDifferIn) {
    const AnalysisSound sound = leftAndCentre();
    const StereoViews views(sound, {0.5_s, 1.0_s});
    ASSERT_EQ(views.view(4), View::Sides);
    // Half of the tone that is on the left alone: half the difference of the channels.
    AnalysisSound left{silence(2.0_s), {}};
    addTone(left.left, {0.0_s, 2.0_s}, 50);
    const StereoViews expected(left, {0.5_s, 1.0_s});
    for (std::size_t i = 0; i < views.sound(4).size(); ++i)
        ASSERT_NEAR(views.sound(4)[i], 0.5f * expected.sound(0)[i], 1e-6f);
}

TEST(StereoViews, CountsSamplesFromHalfASecondBeforeThePassage) {
    const AnalysisSound sound{silence(3.0_s), {}};
    EXPECT_EQ(StereoViews(sound, {1.0_s, 2.0_s}).sampleAt(1.0_s), 11025);
    EXPECT_EQ(StereoViews(sound, {0.2_s, 2.0_s}).sampleAt(0.2_s), 4410);
    EXPECT_EQ(StereoViews(sound, {1.0_s, 2.0_s}).sound(0).size(), 2u * 22050u);
}

} // namespace
} // namespace earwright
