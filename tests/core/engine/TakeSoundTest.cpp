#include "core/engine/TakeSound.h"

#include "tests/core/engine/HeldRecording.h"

#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

/// A file in which sample n is n.
std::shared_ptr<Recording> counting(std::size_t frames) {
    std::vector<float> samples(frames);
    for (std::size_t i = 0; i < frames; ++i)
        samples[i] = static_cast<float>(i);
    return tests::held(std::move(samples), 44100);
}

std::vector<float> readFrom(TakeSound& sound, std::int64_t from, std::size_t frames) {
    std::vector<float> out(frames);
    sound.read(Frames(from), out);
    return out;
}

TEST(TakeSound, IsItsFileWithinItsPart) {
    TakeSound sound(counting(9000), {Frames(1000), Frames(8000)});
    const auto heard = readFrom(sound, 1000, 7000);
    EXPECT_EQ(heard.front(), 1000);
    EXPECT_EQ(heard.back(), 7999);
}

TEST(TakeSound, IsTheMeanOfItsChannels) {
    std::vector<float> samples;
    for (int i = 0; i < 3000; ++i)
        samples.insert(samples.end(), {static_cast<float>(i), static_cast<float>(-3 * i)});
    TakeSound sound(tests::held(std::move(samples), 44100, 2), {Frames(0), Frames(3000)});
    EXPECT_EQ(sound.channels(), 1);
    EXPECT_EQ(readFrom(sound, 1000, 2), (std::vector<float>{-1000, -1001}));
}

TEST(TakeSound, IsSilentOutsideItsPartWithSoftEdges) {
    TakeSound sound(counting(9000), {Frames(1000), Frames(2000)});
    EXPECT_EQ(readFrom(sound, 1999, 1)[0], 1999);
    // The edge takes 10 ms, 441 frames, and is half open in its middle.
    EXPECT_NEAR(readFrom(sound, 2000 + 220, 1)[0], 2220 * 0.5, 20);
    EXPECT_NEAR(readFrom(sound, 1000 - 221, 1)[0], 779 * 0.5, 10);
    EXPECT_EQ(readFrom(sound, 2441, 1)[0], 0);
    EXPECT_EQ(readFrom(sound, 1000 - 442, 1)[0], 0);
    EXPECT_EQ(readFrom(sound, 5'000'000, 1)[0], 0);
}

TEST(TakeSound, ReadsTheSameInOnePieceAndInMany) {
    TakeSound sound(counting(9000), {Frames(1000), Frames(2000)});
    const auto inOnePiece = readFrom(sound, 0, 3000);
    std::vector<float> inPieces;
    for (std::int64_t at = 0; at < 3000; at += 250) {
        const auto piece = readFrom(sound, at, 250);
        inPieces.insert(inPieces.end(), piece.begin(), piece.end());
    }
    EXPECT_EQ(inOnePiece, inPieces);
}

} // namespace
} // namespace earwright
