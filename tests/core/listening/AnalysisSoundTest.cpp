#include "core/listening/AnalysisSound.h"

#include "tests/core/sound/WrittenFile.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

std::shared_ptr<Recording> recordingOf(const ScratchFolder& folder, int rate, int channels, double seconds) {
    const auto path = folder / "tone.wav";
    writeSound(path, SF_FORMAT_WAV | SF_FORMAT_FLOAT, rate, channels, sine(440, rate, channels, seconds));
    const auto recording = Recording::open(path);
    EXPECT_TRUE(recording);
    return *recording;
}

/// Rises through zero: one a period.
int periodsOf(const std::vector<float>& sound) {
    int count = 0;
    for (std::size_t i = 1; i < sound.size(); ++i)
        count += sound[i - 1] < 0 && sound[i] >= 0;
    return count;
}

TEST(AnalysisSound, KeepsLengthAndPitchAtAnyRate) {
    for (const int rate : {8000, 22050, 44100, 48000, 96000}) {
        const ScratchFolder folder;
        const auto sound = AnalysisSound::read(*recordingOf(folder, rate, 1, 2.0));
        ASSERT_TRUE(sound);
        EXPECT_FALSE(sound->isStereo());
        EXPECT_NEAR(sound->duration().value, 2.0, 0.001) << rate;
        EXPECT_NEAR(periodsOf(sound->left), 880, 2) << rate;
    }
}

TEST(AnalysisSound, KeepsBothChannels) {
    const ScratchFolder folder;
    const auto sound = AnalysisSound::read(*recordingOf(folder, 44100, 2, 1.0));
    ASSERT_TRUE(sound);
    ASSERT_TRUE(sound->isStereo());
    EXPECT_EQ(sound->left.size(), sound->right.size());
    EXPECT_EQ(sound->mid().size(), sound->left.size());
    EXPECT_NEAR(sound->mid()[1000], sound->left[1000], 1e-6);
}

TEST(AnalysisSound, StopsWhenAskedAndTellsHowFarItIs) {
    const ScratchFolder folder;
    const auto recording = recordingOf(folder, 44100, 1, 3.0);
    double last = -1;
    const auto rising = [&](double part) {
        EXPECT_GE(part, last);
        last = part;
    };
    ASSERT_TRUE(AnalysisSound::read(*recording, {}, rising));
    EXPECT_EQ(last, 1);
    std::stop_source stop;
    stop.request_stop();
    const auto stopped = AnalysisSound::read(*recording, stop.get_token());
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().kind, ErrorKind::Cancelled);
}

} // namespace
} // namespace earwright
