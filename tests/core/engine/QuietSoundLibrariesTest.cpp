#include "core/engine/QuietSoundLibraries.h"

#include <cstdio>
#include <gtest/gtest.h>
#include <iostream>

namespace earwright {
namespace {

TEST(QuietSoundLibraries, LetThroughWhatTheProgramItselfSays) {
    quietSoundLibraries();
    testing::internal::CaptureStderr();
    std::fprintf(stderr, "earwright: %s cannot be read (%d)\n", "tune.wav", 5);
    std::fputs("Expression is everything.\n", stderr);
    std::cerr << "to be seen\n";
    EXPECT_EQ(testing::internal::GetCapturedStderr(),
              "earwright: tune.wav cannot be read (5)\nExpression is everything.\nto be seen\n");
}

TEST(QuietSoundLibraries, KeepWhatPortAudioPrintsOffTheTerminal) {
    quietSoundLibraries();
    testing::internal::CaptureStderr();
    // As PortAudio 19.6 prints it when a sink goes away.
    std::fprintf(stderr, "Expression '%s' failed in '%s', line: %d\n",
                 "PaAlsaStream_WaitForFrames( stream, &framesAvail, &xrun )",
                 "src/hostapi/alsa/pa_linux_alsa.c", 4285);
    std::fflush(stderr);
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
}

} // namespace
} // namespace earwright
