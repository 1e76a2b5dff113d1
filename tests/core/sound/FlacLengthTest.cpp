#include "core/sound/FlacLength.h"

#include "core/sound/Recording.h"
#include "tests/core/sound/WrittenFile.h"

#include <cstdlib>
#include <filesystem>
#include <gtest/gtest.h>
#include <string>

namespace earwright {
namespace {

using tests::ScratchFolder;
using tests::sine;

constexpr int flac16 = SF_FORMAT_FLAC | SF_FORMAT_PCM_16;

TEST(FlacLength, IsThatOfTheLastFrameWhateverTheFrameSizes) {
    const ScratchFolder folder;
    for (const int frames : {1, 4095, 4096, 4097, 100000, 1000000}) {
        std::vector<float> sound = sine(440, 44100, 2, 30.0);
        sound.resize(static_cast<std::size_t>(2 * frames));
        tests::writeSound(folder / "a.flac", flac16, 44100, 2, sound);
        EXPECT_EQ(findFlacLength(folder / "a.flac"), Frames(frames));
    }
}

TEST(FlacLength, IsUnknownWhereTheLastFrameIsNotWhole) {
    const ScratchFolder folder;
    tests::writeSound(folder / "a.flac", flac16, 44100, 1, sine(440, 44100, 1, 3.0));
    const auto size = std::filesystem::file_size(folder / "a.flac");
    std::filesystem::resize_file(folder / "a.flac", size - 1);
    EXPECT_FALSE(findFlacLength(folder / "a.flac"));
    tests::writeBytes(folder / "b.flac", "fLaC and then nothing of the kind");
    EXPECT_FALSE(findFlacLength(folder / "b.flac"));
    EXPECT_FALSE(findFlacLength(folder / "none.flac"));
}

TEST(FlacLength, IsGivenUpWhereHeadersHaveNoFramesBehindThem) {
    const ScratchFolder folder;
    // Nine bytes: sync, 4096 samples at 44.1 kHz, stereo of 16 bits, frame 0, the CRC-8 of these, the rest.
    const std::string header("\xff\xf8\xc9\x18\x00\xc2\x00\x00\x00", 9);
    std::string bytes = "fLaC" + std::string(38, '\0');
    for (int i = 0; i < 200000; ++i)
        bytes += header;
    tests::writeBytes(folder / "a.flac", bytes + "end");
    // Checking each of them to the end of the file would take most of an hour.
    EXPECT_FALSE(findFlacLength(folder / "a.flac"));
}

TEST(Recording, OpensAFlacThatWasWrittenAsAStreamWithoutItsLength) {
    if (std::system("ffmpeg -version > /dev/null 2>&1") != 0) GTEST_SKIP() << "the ffmpeg tool is not there";
    const ScratchFolder folder;
    const auto written = sine(440, 44100, 1, 7.3);
    tests::writeSound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 44100, 1, written);
    // Through a pipe the tool cannot go back and fill the length in.
    const std::string line = "ffmpeg -nostdin -loglevel error -i '" + (folder / "a.wav").string() +
                             "' -f flac - | cat > '" + (folder / "stream.flac").string() + "'";
    ASSERT_EQ(std::system(line.c_str()), 0);
    const auto opened = Recording::open(folder / "stream.flac");
    ASSERT_TRUE(opened.ok()) << describe(opened.error());
    EXPECT_EQ((*opened)->length(), Frames(static_cast<std::int64_t>(written.size())));
    std::vector<float> block(1000);
    for (const std::size_t from : {std::size_t{300000}, std::size_t{1000}, written.size() - 1000}) {
        ASSERT_EQ((*opened)->read(Frames(static_cast<std::int64_t>(from)), block), Frames(1000)) << from;
        for (std::size_t i = 0; i < block.size(); ++i)
            ASSERT_NEAR(block[i], written[from + i], 1e-4f) << from << " + " << i;
    }
}

} // namespace
} // namespace earwright
