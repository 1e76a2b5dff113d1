#include "core/engine/TakeSound.h"

#include "tests/core/engine/HeldRecording.h"

#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

constexpr SampleRate rate{44100};

/// A file in which sample n is n.
std::shared_ptr<Recording> counting(std::size_t frames) {
    std::vector<float> samples(frames);
    for (std::size_t i = 0; i < frames; ++i)
        samples[i] = static_cast<float>(i);
    return tests::held(std::move(samples), rate.hertz);
}

std::vector<float> readFrom(TakeSound& sound, std::int64_t from, std::size_t frames) {
    std::vector<float> out(frames);
    sound.read(Frames(from), out);
    return out;
}

TEST(TakeSound, StandsWhereItWasPlayed) {
    // File frame 1000 was played with recording frame 50000; the lane starts at 50100.
    TakeSound sound({counting(9000), {Frames(1000), Frames(8000)}, Frames(50000), 1, 0},
                    TimeTags(50100, 1, {}, 0), rate);
    const auto heard = readFrom(sound, 0, 100);
    EXPECT_EQ(heard.front(), 1100);
    EXPECT_EQ(heard.back(), 1199);
    EXPECT_EQ(readFrom(sound, -50, 1)[0], 1050) << "what comes before the start is the sound before it";
}

TEST(TakeSound, IsSilentOutsideItsPartWithSoftEdges) {
    TakeSound sound({counting(9000), {Frames(1000), Frames(2000)}, Frames(0), 1, 0}, TimeTags(0, 1, {}, 0),
                    rate);
    EXPECT_EQ(readFrom(sound, 999, 1)[0], 1999);
    // The edge takes 10 ms, 441 frames, and is half open in its middle.
    EXPECT_NEAR(readFrom(sound, 1000 + 220, 1)[0], 2220 * 0.5, 20);
    EXPECT_EQ(readFrom(sound, 1441, 1)[0], 0);
    EXPECT_EQ(readFrom(sound, -442, 1)[0], 0);
    EXPECT_EQ(readFrom(sound, 5'000'000, 1)[0], 0);
}

TEST(TakeSound, GoesRoundTheLoopWithoutDriftingWhateverTheSpeed) {
    // Played at 0.55: a take frame covers 0.55 frames of the recording, so a pass of 10,007 frames has a
    // length of 18,194.545… take frames.
    const Range<Frames> loop{Frames(5000), Frames(15007)};
    TakeSound sound({counting(40000), {Frames(100), Frames(30000)}, Frames(5000), 0.55, 0},
                    TimeTags(5000, 0.55, loop, 0), rate);
    for (const std::int64_t passesOn : {1LL, 7LL, 1000LL, 10000LL}) {
        const double seam = 10007.0 * static_cast<double>(passesOn) / 0.55;
        const auto first = static_cast<std::int64_t>(std::ceil(seam));
        EXPECT_NEAR(readFrom(sound, first, 1)[0], 100, 1) << passesOn << " passes on";
        EXPECT_NEAR(readFrom(sound, first + 5000, 1)[0], 5100, 1) << passesOn << " passes on";
    }
}

TEST(TakeSound, FadesOverAtTheSeam) {
    const Range<Frames> loop{Frames(0), Frames(10000)};
    TakeSound sound({counting(40000), {Frames(1000), Frames(20000)}, Frames(0), 1, 0},
                    TimeTags(0, 1, loop, 0), rate);
    // 13 ms are 573 frames: before them the pass as it is, after them the next, whose lead-in is 0…1 of its
    // edge.
    EXPECT_EQ(readFrom(sound, 10000 - 574, 1)[0], 11000 - 574);
    EXPECT_EQ(readFrom(sound, 10000, 1)[0], 1000);
    EXPECT_NEAR(readFrom(sound, 9999, 1)[0], 999, 30);
    const auto inOnePiece = readFrom(sound, 9000, 2000);
    std::vector<float> inPieces;
    for (std::int64_t at = 9000; at < 11000; at += 250) {
        const auto piece = readFrom(sound, at, 250);
        inPieces.insert(inPieces.end(), piece.begin(), piece.end());
    }
    EXPECT_EQ(inOnePiece, inPieces);
}

} // namespace
} // namespace earwright
