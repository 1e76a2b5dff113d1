#include "core/sound/SoundFileWriter.h"

#include "core/sound/Recording.h"
#include "tests/core/sound/WrittenFile.h"

#include <fstream>
#include <gtest/gtest.h>
#include <string>

namespace earwright {
namespace {

using tests::ScratchFolder;

std::string firstFourOf(const std::filesystem::path& path) {
    std::string name(4, '\0');
    std::ifstream(path, std::ios::binary).read(name.data(), 4);
    return name;
}

/// Writes a second and says what the file was begun as.
std::string kindFor(const std::filesystem::path& path, std::int64_t expectedFrames) {
    auto writer = SoundFileWriter::create(path, SampleRate{44100}, 2, expectedFrames);
    EXPECT_TRUE(writer.ok());
    EXPECT_TRUE((*writer)->write(tests::sine(440, 44100, 2, 1.0)).ok());
    EXPECT_TRUE((*writer)->finish().ok());
    return firstFourOf(path);
}

TEST(SoundFileWriter, BeginsAFileThatAWavCannotHoldAsRf64) {
    const ScratchFolder folder;
    // 24 bits in two channels: six bytes a frame, so 4 GiB are 715,827,882 frames (4 h 30 min).
    EXPECT_EQ(kindFor(folder / "short.wav", 44100), "RIFF");
    EXPECT_EQ(kindFor(folder / "four hours.wav", 4LL * 3600 * 44100), "RIFF");
    EXPECT_EQ(kindFor(folder / "five hours.wav", 5LL * 3600 * 44100), "RF64");
    EXPECT_EQ(kindFor(folder / "five hours.flac", 5LL * 3600 * 44100), "fLaC");
    for (const char* name : {"short.wav", "five hours.wav", "five hours.flac"}) {
        const auto read = Recording::open(folder / name);
        ASSERT_TRUE(read.ok()) << describe(read.error());
        EXPECT_EQ((*read)->length(), Frames(44100)) << name;
    }
}

} // namespace
} // namespace earwright
