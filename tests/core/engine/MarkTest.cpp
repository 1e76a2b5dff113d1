#include "core/engine/Mark.h"

#include "core/engine/MarkPlayer.h"

#include <gtest/gtest.h>
#include <random>
#include <vector>

namespace earwright {
namespace {

constexpr SampleRate rate{44100};

std::vector<float> noise(std::size_t count, float loudness, unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<float> normal(0, loudness);
    std::vector<float> samples(count);
    for (float& sample : samples)
        sample = normal(random);
    return samples;
}

void addMark(std::vector<float>& samples, std::size_t at, float gain, SampleRate markRate = rate) {
    for (std::size_t i = 0; i < Mark::frames(markRate); ++i)
        samples[at + i] += gain * Mark::sampleAt(i, markRate);
}

TEST(Mark, IsFoundToTheSampleInNoiseOfItsOwnLoudness) {
    for (const unsigned seed : {1u, 2u, 3u}) {
        // The mark's effective value is 0.25 · √(3/16) = 0.108.
        auto samples = noise(30000, 0.1f, seed);
        addMark(samples, 12345, 1);
        const auto found = Mark::find(samples, rate);
        ASSERT_TRUE(found);
        EXPECT_NEAR(static_cast<double>(found->at), 12345, 1) << "seed " << seed;
    }
}

TEST(Mark, IsFoundSoftAndUpsideDown) {
    auto samples = noise(30000, 0.0001f, 4);
    addMark(samples, 20000, -0.01f);
    const auto found = Mark::find(samples, rate);
    ASSERT_TRUE(found);
    EXPECT_EQ(found->at, 20000u);
    EXPECT_LT(found->likeness, -0.9);
}

TEST(Mark, IsNotFoundWhereItIsNot) {
    EXPECT_FALSE(Mark::find(noise(40000, 0.1f, 5), rate));
    EXPECT_FALSE(Mark::find(std::vector<float>(40000, 0.0f), rate));
    EXPECT_FALSE(Mark::find({}, rate));
}

TEST(Mark, IsUnclearWhereItStandsTwice) {
    auto samples = noise(40000, 0.001f, 6);
    addMark(samples, 5000, 1);
    addMark(samples, 25000, 1);
    EXPECT_FALSE(Mark::find(samples, rate));
}

TEST(MarkPlayer, TellsInWhichFrameTheMarkBegan) {
    MarkPlayer player;
    std::vector<float> out(64);
    player.add(out, OutputFrames(0), rate);
    EXPECT_EQ(out, std::vector<float>(64));
    player.order();
    EXPECT_FALSE(player.begun());
    std::vector<float> whole;
    for (std::int64_t at = 64; at < 64 * 100; at += 64) {
        std::fill(out.begin(), out.end(), 0.0f);
        player.add(out, OutputFrames(at), rate);
        whole.insert(whole.end(), out.begin(), out.end());
    }
    EXPECT_EQ(player.begun(), OutputFrames(64));
    for (std::size_t i = 0; i < whole.size(); ++i)
        EXPECT_FLOAT_EQ(whole[i], Mark::sampleAt(i, rate));
}

} // namespace
} // namespace earwright
