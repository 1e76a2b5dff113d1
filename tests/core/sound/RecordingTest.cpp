#include "core/sound/Recording.h"

#include "tests/core/sound/DamagedFile.h"
#include "tests/core/sound/WrittenFile.h"

#include <atomic>
#include <cmath>
#include <filesystem>
#include <gtest/gtest.h>
#include <sndfile.h>
#include <string>
#include <thread>
#include <unistd.h>

namespace earwright {
namespace {

using tests::ScratchFolder;
using tests::sine;
using tests::writeSound;

constexpr int wav16 = SF_FORMAT_WAV | SF_FORMAT_PCM_16;
constexpr int wavFloat = SF_FORMAT_WAV | SF_FORMAT_FLOAT;
constexpr int flac16 = SF_FORMAT_FLAC | SF_FORMAT_PCM_16;
constexpr int vorbis = SF_FORMAT_OGG | SF_FORMAT_VORBIS;
constexpr int mp3 = SF_FORMAT_MPEG | SF_FORMAT_MPEG_LAYER_III;

struct Kind {
    const char* name;
    int format;
    int rate;
    int channels;
    /// Largest sample error the coding may leave; lossy codings move a pure tone by a few per cent.
    float tolerance;
    /// Frames a lossy coding may add at the ends.
    std::int64_t padding;
};

class EveryKind : public testing::TestWithParam<Kind> {};

TEST_P(EveryKind, IsReadBackAtAnyPlace) {
    const Kind& kind = GetParam();
    const ScratchFolder folder;
    const auto path = folder / kind.name;
    const auto written = sine(440, kind.rate, kind.channels, 2.0);
    writeSound(path, kind.format, kind.rate, kind.channels, written);

    const auto opened = Recording::open(path);
    ASSERT_TRUE(opened.ok()) << describe(opened.error());
    Recording& recording = **opened;
    EXPECT_EQ(recording.rate().hertz, kind.rate);
    EXPECT_EQ(recording.channels(), kind.channels);
    EXPECT_NEAR(static_cast<double>(recording.length().value), 2.0 * kind.rate,
                static_cast<double>(kind.padding));

    // From back to front, so that every read has to seek.
    const auto wide = static_cast<std::size_t>(kind.channels);
    std::vector<float> block(1000 * wide);
    for (const std::int64_t from : {kind.rate * 3L / 2, kind.rate * 1L, kind.rate / 4L, 500L}) {
        ASSERT_EQ(recording.read(Frames(from), block), Frames(1000));
        for (std::size_t i = 0; i < block.size(); ++i)
            ASSERT_NEAR(block[i], written[static_cast<std::size_t>(from) * wide + i], kind.tolerance)
                << kind.name << " frame " << from + static_cast<std::int64_t>(i / wide);
    }
}

INSTANTIATE_TEST_SUITE_P(
    Recording, EveryKind,
    testing::Values(Kind{"mono 8k.wav", wav16, 8000, 1, 1e-4f, 0},
                    Kind{"stereo 192k.wav", wavFloat, 192000, 2, 1e-6f, 0},
                    Kind{"24 bit.aiff", SF_FORMAT_AIFF | SF_FORMAT_PCM_24, 48000, 2, 1e-6f, 0},
                    Kind{"stereo.flac", flac16, 44100, 2, 1e-4f, 0},
                    Kind{"Übung für Gehör – Δ.flac", flac16, 96000, 1, 1e-4f, 0},
                    Kind{"vorbis.ogg", vorbis, 44100, 2, 0.05f, 0},
                    Kind{"opus.opus", SF_FORMAT_OGG | SF_FORMAT_OPUS, 48000, 2, 0.05f, 1000},
                    Kind{"layer three.mp3", mp3, 44100, 2, 0.05f, 1200}),
    [](const testing::TestParamInfo<Kind>& kind) {
        std::string name = kind.param.name;
        std::erase_if(name, [](char c) { return !std::isalnum(static_cast<unsigned char>(c)); });
        return name;
    });

TEST(Recording, GivesSilenceOutsideItsEnds) {
    const ScratchFolder folder;
    writeSound(folder / "a.wav", wavFloat, 44100, 1, std::vector<float>(100, 0.25f));
    const auto opened = Recording::open(folder / "a.wav");
    ASSERT_TRUE(opened.ok());
    std::vector<float> block(120, 9.0f);
    EXPECT_EQ((*opened)->read(Frames(-10), block), Frames(100));
    EXPECT_FLOAT_EQ(block[9], 0.0f);
    EXPECT_FLOAT_EQ(block[10], 0.25f);
    EXPECT_FLOAT_EQ(block[109], 0.25f);
    EXPECT_FLOAT_EQ(block[110], 0.0f);
}

TEST(Recording, FoldsSixChannelsSoThatNoneClipsAndTheCentreIsInBothEars) {
    const ScratchFolder folder;
    std::vector<float> frames;
    for (int i = 0; i < 100; ++i)
        frames.insert(frames.end(), {0.0f, 0.0f, 1.0f, 1.0f, 0.0f, 1.0f}); // C, LFE and right surround
    writeSound(folder / "six.wav", wavFloat, 48000, 6, frames);
    const auto opened = Recording::open(folder / "six.wav");
    ASSERT_TRUE(opened.ok());
    EXPECT_EQ((*opened)->channels(), 2);
    std::vector<float> frame(2);
    (*opened)->read(Frames(50), frame);
    // ITU-R BS.775: centre and surround at 0.7071; all together at most 1 + 2 · 0.7071.
    EXPECT_NEAR(frame[0], 0.70711 / 2.41421, 1e-4);
    EXPECT_NEAR(frame[1], 2 * 0.70711 / 2.41421, 1e-4);
}

TEST(Recording, TurnsSamplesThatAreNoNumbersIntoSilence) {
    const ScratchFolder folder;
    writeSound(folder / "nan.wav", wavFloat, 44100, 1, {0.5f, std::nanf(""), HUGE_VALF, 0.5f});
    const auto opened = Recording::open(folder / "nan.wav");
    ASSERT_TRUE(opened.ok());
    std::vector<float> block(4);
    (*opened)->read(Frames(0), block);
    EXPECT_EQ(block, (std::vector<float>{0.5f, 0.0f, 0.0f, 0.5f}));
}

TEST(Recording, IsReadByManyThreadsAtOnce) {
    const ScratchFolder folder;
    const auto written = sine(300, 44100, 1, 20.0);
    writeSound(folder / "long.flac", flac16, 44100, 1, written);
    const auto opened = Recording::open(folder / "long.flac");
    ASSERT_TRUE(opened.ok());
    std::atomic<int> wrong{0};
    std::vector<std::thread> readers;
    for (unsigned seed = 1; seed <= 6; ++seed)
        readers.emplace_back([&, seed] {
            std::vector<float> block(512);
            std::size_t at = seed * 7919;
            for (int i = 0; i < 40; ++i) {
                at = (at * 31 + seed) % (written.size() - block.size());
                (*opened)->read(Frames(static_cast<std::int64_t>(at)), block);
                for (std::size_t k = 0; k < block.size(); ++k)
                    if (std::abs(block[k] - written[at + k]) > 1e-4f) ++wrong;
            }
        });
    for (std::thread& reader : readers)
        reader.join();
    EXPECT_EQ(wrong, 0);
}

/// Opening must fail with one sentence that names the file.
void expectRefused(const std::filesystem::path& path, ErrorKind kind, const std::string& reason) {
    const auto opened = Recording::open(path);
    ASSERT_FALSE(opened.ok()) << path;
    EXPECT_EQ(opened.error().kind, kind) << describe(opened.error());
    EXPECT_NE(opened.error().message.find(path.filename().string()), std::string::npos);
    EXPECT_NE(opened.error().message.find(reason), std::string::npos) << describe(opened.error());
    EXPECT_EQ(opened.error().message.find('\n'), std::string::npos);
}

TEST(Recording, SaysThatAFileIsNotThere) {
    const ScratchFolder folder;
    expectRefused(folder / "none.wav", ErrorKind::NotFound, "There is no file");
}

TEST(Recording, SaysThatAFileIsEmpty) {
    const ScratchFolder folder;
    tests::writeBytes(folder / "empty.wav", "");
    expectRefused(folder / "empty.wav", ErrorKind::Malformed, "is empty");
}

TEST(Recording, SaysThatAFolderIsNoRecording) {
    const ScratchFolder folder;
    std::filesystem::create_directory(folder / "album");
    expectRefused(folder / "album", ErrorKind::Malformed, "is a folder");
}

TEST(Recording, SaysThatATextIsNoRecording) {
    const ScratchFolder folder;
    tests::writeBytes(folder / "notes.wav", "Bb7 Eb7 Bb7, played by ear\n");
    expectRefused(folder / "notes.wav", ErrorKind::Malformed, "is not a recording");
}

TEST(Recording, SaysThatAHeaderWithoutSoundHoldsNone) {
    const ScratchFolder folder;
    writeSound(folder / "header.wav", wav16, 44100, 2, {});
    expectRefused(folder / "header.wav", ErrorKind::Malformed, "holds no sound");
}

TEST(Recording, RefusesARateItCannotPlay) {
    const ScratchFolder folder;
    writeSound(folder / "slow.wav", wav16, 4000, 1, sine(100, 4000, 1, 0.5));
    expectRefused(folder / "slow.wav", ErrorKind::Unsupported, "4000 Hz");
}

TEST(Recording, SaysThatAFileMayNotBeRead) {
    if (geteuid() == 0) GTEST_SKIP() << "the superuser may read every file";
    const ScratchFolder folder;
    writeSound(folder / "locked.wav", wav16, 44100, 1, sine(100, 44100, 1, 0.1));
    std::filesystem::permissions(folder / "locked.wav", std::filesystem::perms::none);
    expectRefused(folder / "locked.wav", ErrorKind::Unreadable, "cannot be read");
}

TEST(Recording, RefusesFilesThatAreCutShort) {
    const ScratchFolder folder;
    for (const auto& [name, format] :
         {std::pair{"cut.wav", wav16}, std::pair{"cut.aiff", SF_FORMAT_AIFF | SF_FORMAT_PCM_16},
          std::pair{"cut.flac", flac16}, std::pair{"cut.ogg", vorbis}}) {
        writeSound(folder / name, format, 44100, 2, sine(440, 44100, 2, 3.0));
        tests::truncateTo(folder / name, 0.6);
        expectRefused(folder / name, ErrorKind::Malformed, "cut short");
    }
}

TEST(Recording, OpensAnMp3ThatIsCutShortAtTheLengthItReallyHolds) {
    const ScratchFolder folder;
    writeSound(folder / "cut.mp3", mp3, 44100, 2, sine(440, 44100, 2, 10.0));
    tests::truncateTo(folder / "cut.mp3", 0.5);
    const auto opened = Recording::open(folder / "cut.mp3");
    ASSERT_TRUE(opened.ok()) << describe(opened.error());
    // Variable bit rate: half the bytes are half the time within a second for a steady tone.
    EXPECT_NEAR((*opened)->duration().value, 5.0, 1.0);
    std::vector<float> last(200);
    EXPECT_EQ((*opened)->read((*opened)->length() - Frames(100), last), Frames(100));
}

TEST(Recording, NeverCrashesOnDamagedFiles) {
    const ScratchFolder folder;
    for (const auto& [name, format] : {std::pair{"d.wav", wav16}, std::pair{"d.flac", flac16},
                                       std::pair{"d.ogg", vorbis}, std::pair{"d.mp3", mp3}}) {
        writeSound(folder / "whole", format, 44100, 2, sine(440, 44100, 2, 2.0));
        const std::string whole = tests::bytesOf(folder / "whole");
        tests::RandomDamage damage(12345);
        int read = 0;
        for (int round = 0; round < 60; ++round) {
            std::string damaged = whole;
            // A header with a checksum is refused whatever is changed in it (Ogg pages: RFC 3533), so every
            // third time it is the sound.
            if (round % 3 == 0)
                damage.hit(damaged, whole.size() * 2 / 5, whole.size() * 3 / 5);
            else
                for (int hit = 0; hit < 4; ++hit)
                    damage.hit(damaged, 0, 120);
            tests::writeBytes(folder / name, damaged);
            read += tests::isReadCalmly(folder / name) ? 1 : 0;
        }
        EXPECT_GT(read, 0) << name << ": nothing was read, so nothing was shown";
    }
}

} // namespace
} // namespace earwright
