#include "core/engine/LoopedSource.h"

#include "tests/core/engine/HeldRecording.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using tests::held;

std::vector<float> tone(double period, std::size_t length) {
    std::vector<float> samples(length);
    for (std::size_t i = 0; i < length; ++i)
        samples[i] = static_cast<float>(0.5 * std::sin(2 * M_PI * static_cast<double>(i) / period));
    return samples;
}

float largestStep(const std::vector<float>& samples, std::size_t from, std::size_t to) {
    float largest = 0;
    for (std::size_t i = from + 1; i < to; ++i)
        largest = std::max(largest, std::abs(samples[i] - samples[i - 1]));
    return largest;
}

std::vector<float> played(LoopedSource& source, std::size_t frames) {
    std::vector<float> out(frames);
    // Pieces of an odd size, so that seams fall anywhere in them.
    for (std::size_t at = 0; at < frames; at += 617)
        source.read(std::span(out).subspan(at, std::min<std::size_t>(617, frames - at)));
    return out;
}

TEST(LoopedSource, IsAtTheSameFrameAfterTenThousandPasses) {
    // Every sample says its own place; 16,777,216 is the last float that is exact.
    std::vector<float> places(20000);
    for (std::size_t i = 0; i < places.size(); ++i)
        places[i] = static_cast<float>(i);
    const Range<Frames> loop{Frames(5003), Frames(7310)};
    LoopedSource source(held(places), Frames(5100), loop);
    std::vector<float> block(2307);
    source.read(std::span(block).first(2210));
    for (int pass = 0; pass < 10000; ++pass) {
        ASSERT_EQ(source.position(), loop.begin);
        source.read(block);
        ASSERT_EQ(block[0], 5003.0f) << "pass " << pass;
        ASSERT_EQ(block[1000], 6003.0f) << "pass " << pass;
    }
}

TEST(LoopedSource, IsInaudibleWhereTheLoopHoldsWholePeriods) {
    LoopedSource source(held(tone(100, 44100)), Frames(10000), Range{Frames(10000), Frames(14000)});
    const auto out = played(source, 20000);
    const auto natural = tone(100, 44100);
    for (std::size_t i = 0; i < out.size(); ++i)
        ASSERT_NEAR(out[i], natural[i % 4000 + 10000], 1e-5) << i;
}

TEST(LoopedSource, NeverStepsMoreThanTheToneItselfAtAnySeam) {
    const auto samples = tone(101.7, 88200);
    const float natural = largestStep(samples, 0, samples.size());
    for (const std::int64_t end : {13000, 13019, 13047, 13071, 13093}) {
        LoopedSource source(held(samples), Frames(9000), Range{Frames(9000), Frames(end)});
        const auto out = played(source, 20000);
        EXPECT_LE(largestStep(out, 0, out.size()), 1.25f * natural) << "loop end " << end;
    }
}

TEST(LoopedSource, KeepsTheAttackAtItsStart) {
    // Silence, then a note that starts with a jump exactly at A.
    std::vector<float> samples(40000, 0.0f);
    for (std::size_t i = 10000; i < samples.size(); ++i)
        samples[i] = 0.8f * std::exp(-static_cast<float>(i - 10000) / 4000.0f);
    LoopedSource source(held(samples), Frames(10000), Range{Frames(10000), Frames(22000)});
    const auto out = played(source, 36000);
    for (std::size_t pass = 1; pass < 3; ++pass)
        for (std::size_t i = 0; i < 2000; ++i)
            ASSERT_EQ(out[pass * 12000 + i], samples[10000 + i]);
}

TEST(LoopedSource, FadesOverSilenceWhereTheLoopStartsWithTheRecording) {
    LoopedSource source(held(std::vector<float>(40000, 0.5f)), Frames(0), Range{Frames(0), Frames(20000)});
    const auto out = played(source, 40000);
    EXPECT_LE(largestStep(out, 0, 19990), 0.01f);
    EXPECT_EQ(out[20000], 0.5f);
}

TEST(LoopedSource, PlaysStraightOnBehindTheLoopAndIntoItFromBefore) {
    std::vector<float> places(20000);
    for (std::size_t i = 0; i < places.size(); ++i)
        places[i] = static_cast<float>(i);
    LoopedSource behind(held(places), Frames(9000), Range{Frames(2000), Frames(8000)});
    EXPECT_EQ(played(behind, 3000).back(), 11999.0f);
    LoopedSource before(held(places), Frames(1000), Range{Frames(2000), Frames(8000)});
    EXPECT_EQ(played(before, 7001).back(), 2000.0f);
}

TEST(LoopedSource, WidensLoopsThatAreTooShort) {
    const auto recording = held(std::vector<float>(44100, 0.0f));
    const auto shortest = Frames(2205);
    EXPECT_EQ(LoopedSource::playable({Frames(100), Frames(101)}, *recording).length(), shortest);
    EXPECT_EQ(LoopedSource::playable({Frames(44000), Frames(44100)}, *recording),
              (Range{Frames(44100) - shortest, Frames(44100)}));
    EXPECT_EQ(LoopedSource::playable({Frames(-50), Frames(99999)}, *recording),
              (Range{Frames(0), Frames(44100)}));
}

} // namespace
} // namespace earwright
