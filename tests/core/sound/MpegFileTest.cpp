// MP3 files whose headers say nothing or the wrong thing about their length. Written by the ffmpeg tool.
#include "core/sound/MpegStart.h"
#include "core/sound/MpegWalk.h"
#include "core/sound/SoundFile.h"
#include "tests/core/sound/WrittenFile.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <gtest/gtest.h>
#include <mpg123.h>
#include <string>
#include <vector>

namespace earwright {
namespace {

using tests::ScratchFolder;

constexpr double lengthSeconds = 40;
constexpr std::int64_t everyFrames = 44100 * 3 + 1234;

/// Loud, soft and silent by turns, so that a variable bit rate varies, with a click at every multiple of
/// everyFrames.
std::vector<float> unevenClicks() {
    std::vector<float> sound = tests::sine(220, 44100, 2, lengthSeconds, 0.05f);
    unsigned random = 1;
    for (std::size_t i = 0; i < sound.size(); ++i) {
        random = random * 1664525u + 1013904223u;
        const bool noisy = (i / (44100 * 2 * 4)) % 2 == 1;
        if (noisy) sound[i] += 0.05f * (static_cast<float>(random >> 8) / 8388608.0f - 1);
    }
    for (std::int64_t place = everyFrames; place * 2 < static_cast<std::int64_t>(sound.size()) - 4000;
         place += everyFrames)
        sound[static_cast<std::size_t>(2 * place)] = sound[static_cast<std::size_t>(2 * place + 1)] = 0.9f;
    return sound;
}

/// The count of libmpg123, which goes through the whole file.
std::int64_t scannedLength(const std::filesystem::path& path) {
    mpg123_init();
    mpg123_handle* handle = mpg123_new(nullptr, nullptr);
    mpg123_param(handle, MPG123_ADD_FLAGS, MPG123_QUIET, 0);
    std::int64_t length = -1;
    if (mpg123_open(handle, path.c_str()) == MPG123_OK && mpg123_scan(handle) == MPG123_OK)
        length = mpg123_length(handle);
    mpg123_close(handle);
    mpg123_delete(handle);
    return length;
}

std::optional<MpegWalk> walk(const std::filesystem::path& path) {
    const auto start = findMpegStart(path);
    if (!start) return std::nullopt;
    auto walked = MpegWalk::through(path, start->firstFrame, !start->isUntagged, {});
    return walked ? *walked : std::nullopt;
}

class UntaggedMp3 : public testing::Test {
protected:
    void SetUp() override {
        if (std::system("ffmpeg -version > /dev/null 2>&1") != 0)
            GTEST_SKIP() << "the ffmpeg tool is not there";
        tests::writeSound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 44100, 2, unevenClicks());
        code("-c:a libmp3lame -q:a 6 -write_xing 0 -id3v2_version 3 -metadata title=blues", "a.mp3");
    }
    void code(const std::string& how, const std::string& name) {
        const std::string line = "ffmpeg -nostdin -loglevel error -y -i '" + (folder / "a.wav").string() +
                                 "' " + how + " '" + (folder / name).string() + "'";
        ASSERT_EQ(std::system(line.c_str()), 0);
    }
    ScratchFolder folder;
};

/// Where the click nearest to a place is heard.
std::int64_t clickNear(SoundFile& file, std::int64_t place) {
    std::vector<float> block(2 * 8000);
    EXPECT_EQ(file.read(Frames(place - 4000), block), Frames(8000)) << place;
    const auto loudest = std::max_element(block.begin(), block.end(),
                                          [](float a, float b) { return std::abs(a) < std::abs(b); });
    return place - 4000 + (loudest - block.begin()) / 2;
}

TEST_F(UntaggedMp3, HasItsTrueLengthAndEveryClickInItsPlace) {
    const auto file = SoundFile::open(folder / "a.mp3");
    ASSERT_TRUE(file.ok()) << describe(file.error());
    ASSERT_EQ((*file)->length().value, scannedLength(folder / "a.mp3"));
    EXPECT_NEAR(static_cast<double>((*file)->length().value), lengthSeconds * 44100, 3 * 1152);
    // Without a tag nobody knows the coder's delay; it is the same for all clicks.
    const std::int64_t delay = clickNear(**file, everyFrames) - everyFrames;
    EXPECT_GT(delay, 500);
    EXPECT_LT(delay, 2500);
    auto twin = (*file)->another();
    ASSERT_TRUE(twin.ok());
    for (std::int64_t place = everyFrames * 13; place > 0; place -= everyFrames * 3) {
        EXPECT_EQ(clickNear(**file, place + delay), place + delay);
        EXPECT_EQ(clickNear(**twin, place + delay), place + delay);
    }
}

TEST_F(UntaggedMp3, GivesTheSameFramesSoughtAsReadThrough) {
    auto through = SoundFile::open(folder / "a.mp3");
    ASSERT_TRUE(through.ok());
    std::vector<float> whole(static_cast<std::size_t>((*through)->length().value) * 2);
    ASSERT_EQ((*through)->read(Frames(0), whole), (*through)->length());
    auto sought = (*through)->another();
    ASSERT_TRUE(sought.ok());
    std::vector<float> block(2 * 2000);
    for (const std::int64_t from : {1500000L, 1111111L, 1152L * 64, 1152L * 64 - 1, 70000L, 1L, 1700001L}) {
        ASSERT_EQ((*sought)->read(Frames(from), block), Frames(2000)) << from;
        for (std::size_t i = 0; i < block.size(); ++i)
            ASSERT_NEAR(block[i], whole[static_cast<std::size_t>(from) * 2 + i], 1e-6f) << from << " + " << i;
    }
}

TEST_F(UntaggedMp3, IsSoughtLikeATaggedOneWhoseDelayIsTakenOff) {
    code("-c:a libmp3lame -q:a 6", "tagged.mp3");
    const auto start = findMpegStart(folder / "tagged.mp3");
    ASSERT_TRUE(start && start->lengthIsReliable && !start->isUntagged);
    ASSERT_TRUE(walk(folder / "tagged.mp3")); // its index is used
    const auto file = SoundFile::open(folder / "tagged.mp3");
    ASSERT_TRUE(file.ok());
    EXPECT_EQ((*file)->length(), Frames(static_cast<std::int64_t>(lengthSeconds * 44100)));
    auto twin = (*file)->another();
    ASSERT_TRUE(twin.ok());
    for (std::int64_t place = everyFrames * 13; place > 0; place -= everyFrames * 3) {
        EXPECT_NEAR(static_cast<double>(clickNear(**file, place)), static_cast<double>(place), 1);
        EXPECT_NEAR(static_cast<double>(clickNear(**twin, place)), static_cast<double>(place), 1);
    }
}

TEST_F(UntaggedMp3, IsReadAsFarAsItGoesWhereItIsCut) {
    for (const double share : {0.3, 0.6, 0.61, 0.62, 0.9}) {
        std::filesystem::copy_file(folder / "a.mp3", folder / "cut.mp3",
                                   std::filesystem::copy_options::overwrite_existing);
        tests::truncateTo(folder / "cut.mp3", share);
        const auto file = SoundFile::open(folder / "cut.mp3");
        ASSERT_TRUE(file.ok()) << describe(file.error());
        EXPECT_LT((*file)->length().value, lengthSeconds * 44100);
        EXPECT_TRUE((*file)->holds((*file)->length() - Frames(1))) << share;
    }
}

TEST_F(UntaggedMp3, IsGoneThroughAsTheDecoderWouldAtEveryRateAndWithTagsBehind) {
    for (const char* how : {"-ar 44100 -b:a 128k", "-ar 48000 -b:a 320k", "-ar 32000 -q:a 9",
                            "-ar 24000 -b:a 64k", "-ar 22050 -ac 1 -q:a 5", "-ar 11025 -ac 1 -b:a 16k"}) {
        code(std::string("-t 5 -c:a libmp3lame -write_xing 0 -write_id3v1 1 -metadata title=x ") + how,
             "b.mp3");
        const auto walked = walk(folder / "b.mp3");
        ASSERT_TRUE(walked) << how;
        EXPECT_EQ(walked->length.value, scannedLength(folder / "b.mp3")) << how;
    }
    code("-t 5 -c:a mp2 -b:a 192k", "b.mp2");
    const auto layerTwo = walk(folder / "b.mp2");
    ASSERT_TRUE(layerTwo);
    EXPECT_EQ(layerTwo->length.value, scannedLength(folder / "b.mp2"));
}

TEST_F(UntaggedMp3, IsLeftToTheDecoderWhereTheRowOfFramesBreaks) {
    std::fstream file(folder / "a.mp3", std::ios::binary | std::ios::in | std::ios::out);
    file.seekp(static_cast<std::streamoff>(std::filesystem::file_size(folder / "a.mp3") / 2));
    file << std::string(5000, 'x');
    file.close();
    EXPECT_FALSE(walk(folder / "a.mp3"));
    const auto opened = SoundFile::open(folder / "a.mp3");
    ASSERT_TRUE(opened.ok());
    EXPECT_NEAR(static_cast<double>((*opened)->length().value), lengthSeconds * 44100, 2 * 44100);
}

TEST_F(UntaggedMp3, IsNotGoneThroughAfterItWasCalledOff) {
    std::stop_source stop;
    stop.request_stop();
    const auto opened = SoundFile::open(folder / "a.mp3", stop.get_token());
    ASSERT_FALSE(opened.ok());
    EXPECT_EQ(opened.error().kind, ErrorKind::Cancelled);
}

} // namespace
} // namespace earwright
