// Sound in MP4, Matroska and raw AAC files. The files are written by the ffmpeg tool from sound made here, so
// coding, container and their delays are not of our making.
#include "core/sound/ContainerFile.h"

#include "core/sound/ContainerStart.h"
#include "core/sound/Recording.h"
#include "tests/core/sound/DamagedFile.h"
#include "tests/core/sound/WrittenFile.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <gtest/gtest.h>
#include <sndfile.h>
#include <string>
#include <vector>

namespace earwright {
namespace {

using tests::ScratchFolder;
using tests::truncateTo;
using tests::writeBytes;
using tests::writeSound;

constexpr double lengthSeconds = 6.3;

bool hasTool() {
    static const bool there = std::system("ffmpeg -version > /dev/null 2>&1") == 0;
    return there;
}

void code(const std::filesystem::path& from, const std::string& how, const std::filesystem::path& to) {
    const std::string line =
        "ffmpeg -nostdin -loglevel error -y -i '" + from.string() + "' " + how + " '" + to.string() + "'";
    ASSERT_EQ(std::system(line.c_str()), 0) << line;
}

/// Places of the clicks: uneven, none near another, none near an end.
std::vector<std::int64_t> clickPlaces(int rate) {
    std::vector<std::int64_t> places;
    for (double at = 0.31; at < lengthSeconds - 0.3; at += 0.733 + 0.011 * static_cast<double>(places.size()))
        places.push_back(std::llround(at * rate));
    return places;
}

/// A soft tone with a click of one frame at each place.
std::vector<float> clicks(int rate, int channels) {
    std::vector<float> sound = tests::sine(330, rate, channels, lengthSeconds, 0.02f);
    for (const std::int64_t place : clickPlaces(rate))
        for (int channel = 0; channel < channels; ++channel)
            sound[static_cast<std::size_t>(place * channels + channel)] = 0.9f;
    return sound;
}

struct Container {
    const char* name;
    int rate;
    int channels;
    /// How the tool codes it.
    const char* how;
    /// Frames of coding delay before the first that was coded, where the file as the tool writes it keeps no
    /// account of them: raw AAC cannot, MP4 in pieces and AAC in Matroska don't.
    std::int64_t delay;
    /// How many frames the length may exceed the coded one: without an account of it the last packet is full.
    /// That of AAC is 1024 frames (ISO/IEC 14496-3); that of Vorbis a quarter of each of two blocks, of 2048
    /// at this rate, 1024 as well (Vorbis I, 4.3.8).
    std::int64_t excess;
};

constexpr const char* withFilm = "-f lavfi -i testsrc=size=64x48:rate=25:duration=6.3 -c:v mpeg4 -c:a aac";

const Container containers[] = {
    {"plain.m4a", 44100, 2, "-c:a aac -b:a 128k", 0, 0},
    {"mono.m4a", 48000, 1, "-c:a aac -b:a 64k -movflags +faststart", 0, 0},
    {"film.mp4", 48000, 2, withFilm, 0, 0},
    {"pieces.mp4", 44100, 2, "-c:a aac -movflags +frag_keyframe+empty_moov -frag_duration 1000000", 1024,
     1024},
    {"lossless.m4a", 44100, 2, "-c:a alac", 0, 0},
    {"uncompressed.mov", 44100, 2, "-c:a pcm_s16be", 0, 0},
    {"film.mkv", 44100, 2, withFilm, 1024, 1023},
    {"lossless.mka", 44100, 2, "-c:a flac", 0, 0},
    {"opus.webm", 48000, 2, "-c:a libopus -b:a 96k", 0, 0},
    {"vorbis.webm", 44100, 2, "-c:a libvorbis -q:a 5", 0, 1023},
    {"raw.aac", 44100, 2, "-c:a aac -b:a 128k", 1024, 1023},
};

/// Seeks of a fresh decoder against the frames of one that reads straight on.
void expectSameSoughtAsReadThrough(const std::filesystem::path& path, const Container& kind) {
    // What an Opus decoder hears depends, ever more weakly, on all that went before (RFC 7845, 4.6).
    const float tolerance = std::string(kind.how).find("opus") != std::string::npos ? 1e-5f : 1e-6f;
    auto through = SoundFile::open(path);
    ASSERT_TRUE(through.ok()) << describe(through.error());
    const auto wide = static_cast<std::size_t>(kind.channels);
    std::vector<float> whole(static_cast<std::size_t>((*through)->length().value) * wide);
    ASSERT_EQ((*through)->read(Frames(0), whole), (*through)->length());

    auto sought = (*through)->another();
    ASSERT_TRUE(sought.ok());
    EXPECT_EQ((*sought)->length(), (*through)->length());
    std::vector<float> block(3000 * wide);
    std::uint64_t random = 7;
    for (int i = 0; i < 25; ++i) {
        random = random * 6364136223846793005u + 1442695040888963407u;
        const auto from = static_cast<std::size_t>((random >> 33) % (whole.size() / wide - 3000));
        ASSERT_EQ((*sought)->read(Frames(static_cast<std::int64_t>(from)), block), Frames(3000));
        for (std::size_t k = 0; k < block.size(); ++k)
            ASSERT_NEAR(block[k], whole[from * wide + k], tolerance)
                << kind.name << " frame " << from << " + " << k / wide;
    }
}

/// Cut at several places: refused, or read as far as it goes.
void expectHonestWhereCut(const ScratchFolder& folder, const Container& kind) {
    for (const double share : {0.02, 0.4, 0.9}) {
        std::filesystem::copy_file(folder / kind.name, folder / "shortened",
                                   std::filesystem::copy_options::overwrite_existing);
        truncateTo(folder / "shortened", share);
        const auto opened = Recording::open(folder / "shortened");
        if (!opened) {
            const std::string& message = opened.error().message;
            EXPECT_TRUE(message.find("cut short") != message.npos || message.find("cut off") != message.npos)
                << message;
            EXPECT_EQ(opened.error().message.find('\n'), std::string::npos);
            continue;
        }
        EXPECT_LT((*opened)->duration().value, lengthSeconds) << kind.name << " " << share;
        std::vector<float> last(200 * static_cast<std::size_t>(kind.channels));
        EXPECT_EQ((*opened)->read((*opened)->length() - Frames(200), last), Frames(200)) << kind.name;
    }
}

/// Damaged in its tables, which stand at the start or at the end, and in its sound.
void expectCalmWhereDamaged(const ScratchFolder& folder, const Container& kind) {
    const std::string whole = tests::bytesOf(folder / kind.name);
    constexpr std::size_t tables = 900;
    ASSERT_GT(whole.size(), 3 * tables);
    tests::RandomDamage damage(4711);
    int read = 0;
    for (int round = 0; round < 24; ++round) {
        std::string damaged = whole;
        for (int i = 0; i < 6; ++i) {
            damage.hit(damaged, tables, whole.size() - tables);
            // The sound alone in every third round, so that there is something to read.
            if (round % 3 == 0) continue;
            damage.hit(damaged, 8, tables);
            damage.hit(damaged, whole.size() - tables, whole.size());
        }
        writeBytes(folder / "damaged", damaged);
        read += tests::isReadCalmly(folder / "damaged") ? 1 : 0;
    }
    EXPECT_GT(read, 0) << kind.name << ": nothing was read, so nothing was shown";
}

class EveryContainer : public testing::TestWithParam<Container> {
protected:
    void SetUp() override {
        if (!canOpenContainers()) GTEST_SKIP() << "this build leaves the FFmpeg libraries out";
        if (!hasTool()) GTEST_SKIP() << "the ffmpeg tool is not there to write the files";
        const Container& kind = GetParam();
        writeSound(folder / "clicks.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, kind.rate, kind.channels,
                   clicks(kind.rate, kind.channels));
        // Without noise that the decoder makes up anew each time.
        const bool isAac = std::string(kind.how).find("-c:a aac") != std::string::npos;
        code(folder / "clicks.wav", kind.how + std::string(isAac ? " -aac_pns 0" : ""), folder / kind.name);
    }

    ScratchFolder folder;
};

TEST_P(EveryContainer, HasEveryClickInItsPlaceAndTheSameFramesSoughtAsReadThrough) {
    const Container& kind = GetParam();
    const auto opened = Recording::open(folder / kind.name);
    ASSERT_TRUE(opened.ok()) << describe(opened.error());
    Recording& recording = **opened;
    EXPECT_EQ(recording.rate().hertz, kind.rate);
    EXPECT_EQ(recording.channels(), kind.channels);
    const std::int64_t coded = std::llround(lengthSeconds * kind.rate) + kind.delay;
    EXPECT_GE(recording.length().value, coded);
    EXPECT_LE(recording.length().value, coded + kind.excess);

    const std::int64_t around = kind.rate / 20;
    std::vector<float> block(static_cast<std::size_t>(2 * around * kind.channels));
    auto places = clickPlaces(kind.rate);
    std::reverse(places.begin(), places.end()); // so that every read has to seek
    for (const std::int64_t place : places) {
        recording.read(Frames(place + kind.delay - around), block);
        const auto loudest = std::max_element(block.begin(), block.end(),
                                              [](float a, float b) { return std::abs(a) < std::abs(b); });
        const std::int64_t found = (loudest - block.begin()) / kind.channels;
        // A click comes out of a lossy coding smeared, its peak within two frames.
        EXPECT_NEAR(static_cast<double>(found), static_cast<double>(around), 2) << kind.name << " " << place;
        EXPECT_GT(std::abs(*loudest), 0.2f) << kind.name << " " << place;
    }
    expectSameSoughtAsReadThrough(folder / kind.name, kind);
}

TEST_P(EveryContainer, IsReadHonestlyOrRefusedWhereItIsCutOrDamaged) {
    expectHonestWhereCut(folder, GetParam());
    expectCalmWhereDamaged(folder, GetParam());
}

INSTANTIATE_TEST_SUITE_P(ContainerFile, EveryContainer, testing::ValuesIn(containers),
                         [](const testing::TestParamInfo<Container>& kind) {
                             std::string name = kind.param.name;
                             std::replace(name.begin(), name.end(), '.', '_');
                             return name;
                         });

TEST(ContainerFile, SaysSoWhereAFilmHasNoSound) {
    if (!canOpenContainers() || !hasTool()) GTEST_SKIP() << "the FFmpeg libraries or tool are not there";
    const ScratchFolder folder;
    writeSound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 8000, 1, tests::sine(100, 8000, 1, 0.2));
    code(folder / "a.wav", "-f lavfi -i testsrc=size=64x48:rate=25:duration=1 -map 1:v -c:v mpeg4",
         folder / "mute.mp4");
    const auto opened = Recording::open(folder / "mute.mp4");
    ASSERT_FALSE(opened.ok());
    EXPECT_NE(opened.error().message.find("mute.mp4 holds no sound"), std::string::npos)
        << describe(opened.error());
}

TEST(ContainerFile, StopsCountingWhenItIsCalledOff) {
    if (!canOpenContainers() || !hasTool()) GTEST_SKIP() << "the FFmpeg libraries or tool are not there";
    const ScratchFolder folder;
    writeSound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 44100, 1, tests::sine(100, 44100, 1, 2));
    code(folder / "a.wav", "-c:a aac", folder / "a.m4a");
    std::stop_source stop;
    stop.request_stop();
    const auto opened = Recording::open(folder / "a.m4a", stop.get_token());
    ASSERT_FALSE(opened.ok());
    EXPECT_EQ(opened.error().kind, ErrorKind::Cancelled);
}

TEST(ContainerFile, SaysWhatToDoWhereTheBuildLeavesItOut) {
    if (canOpenContainers()) GTEST_SKIP() << "this build has the FFmpeg libraries";
    const ScratchFolder folder;
    writeBytes(folder / "a.m4a", std::string("\0\0\0\x18"
                                             "ftypM4A ",
                                             12));
    const auto opened = Recording::open(folder / "a.m4a");
    ASSERT_FALSE(opened.ok());
    EXPECT_EQ(opened.error().kind, ErrorKind::Unsupported);
    EXPECT_NE(opened.error().message.find("this build of Earwright cannot open"), std::string::npos);
}

TEST(ContainerStart, TellsRawAacFromMpegAudio) {
    const ScratchFolder folder;
    writeBytes(folder / "a", "\xff\xf1\x50\x80\x01\x02\x03\x04"); // ADTS: layer 00
    EXPECT_TRUE(isMediaContainer(folder / "a"));
    writeBytes(folder / "b", "\xff\xfb\x90\x64\x01\x02\x03\x04"); // MPEG-1 layer III
    EXPECT_FALSE(isMediaContainer(folder / "b"));
    EXPECT_FALSE(isMediaContainer(folder / "none"));
}

} // namespace
} // namespace earwright
