#include "core/time/SampleRate.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(SampleRate, TurnsFramesIntoSecondsAndBackWithoutLoss) {
    for (const int hertz : {8000, 11025, 44100, 48000, 96000, 192000}) {
        const SampleRate rate{hertz};
        // Three hours in, where a float would long have lost single frames.
        for (std::int64_t frame = 3LL * 3600 * hertz; frame < 3LL * 3600 * hertz + 100; ++frame)
            ASSERT_EQ(rate.frames(rate.seconds(Frames(frame))), Frames(frame)) << hertz;
    }
}

TEST(SampleRate, OneSecondIsAsManyFramesAsItsHertz) {
    EXPECT_EQ(SampleRate{44100}.frames(Seconds(1)), Frames(44100));
    EXPECT_EQ(SampleRate{48000}.outputFrames(0.5), OutputFrames(24000));
    EXPECT_DOUBLE_EQ(SampleRate{8000}.seconds(Frames(4000)).value, 0.5);
}

} // namespace
} // namespace earwright
