#include "core/engine/AttackGraft.h"

#include "tests/core/engine/HeldRecording.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

constexpr SampleRate rate{44100};
constexpr int lead = 2048;
/// As far as a stretcher with windows of 4096 frames is fed ahead of what it gives out.
constexpr std::size_t ahead = 2 * lead + 256;

/// A bass of 55 Hz, whose period hardly fits the time that an attack is judged against, under a chord.
std::vector<float> band(std::size_t frames) {
    std::vector<float> samples(frames);
    for (std::size_t i = 0; i < frames; ++i) {
        const double t = static_cast<double>(i) / rate.hertz;
        double value = 0;
        for (int partial = 1; partial <= 12; ++partial)
            value += 0.2 / partial * std::sin(2 * M_PI * 55 * partial * t + partial);
        samples[i] = static_cast<float>(value + 0.1 * std::sin(2 * M_PI * 330 * t));
    }
    return samples;
}

/// Feeds the source and lets the graft work on `stretched` in the blocks it would come in.
std::vector<float> grafted(AttackGraft& graft, double speed, const std::vector<float>& source,
                           std::vector<float> stretched) {
    std::size_t fed = 0;
    for (std::size_t made = 0; made < stretched.size(); made += 200) {
        const auto wanted = std::min(
            source.size(), ahead + static_cast<std::size_t>(static_cast<double>(made + 200) * speed));
        graft.feed(std::span(source).subspan(fed, wanted - fed));
        fed = wanted;
        graft.apply(std::span(stretched).subspan(made, std::min<std::size_t>(200, stretched.size() - made)));
    }
    return stretched;
}

TEST(AttackGraft, LeavesASustainedSoundAsItIs) {
    const std::vector<float> source = band(60000);
    AttackGraft graft(rate, 1);
    graft.start(1.0, 0.0, lead);
    const std::vector<float> stretched = band(40000);
    const std::vector<float> heard = grafted(graft, 1.0, source, stretched);
    // The first feed is an attack out of nothing, and lies before all that is heard. Beyond that, both parts
    // of the sound are only taken apart and put together again.
    for (std::size_t i = 0; i < heard.size(); ++i)
        ASSERT_NEAR(heard[i], stretched[i], 1e-6f) << i;
}

long clickHeardLate(double speed, float loudness) {
    constexpr long place = 30000;
    std::vector<float> source = band(90000);
    for (float& sample : source)
        sample *= loudness;
    source[place] += 0.7f;
    AttackGraft graft(rate, 1);
    graft.start(speed, 0.0, lead);
    const auto told = std::lround(static_cast<double>(place - lead) / speed);
    const std::vector<float> heard =
        grafted(graft, speed, source, std::vector<float>(static_cast<std::size_t>(told) + 2000));
    return tests::loudestIn(heard, 0, static_cast<long>(heard.size())) - told;
}

TEST(AttackGraft, SetsAClickIntoTheFrameThatTheSpeedSays) {
    for (const double speed : {0.1, 0.5, 0.77, 2.0})
        EXPECT_EQ(clickHeardLate(speed, 0.0001f), 0) << speed;
}

TEST(AttackGraft, SetsAClickOverALoudBandWithinAFrame) {
    // Only the treble of it is grafted, and that swings back in the next frame nearly as far.
    for (const double speed : {0.1, 0.5, 0.77, 2.0})
        EXPECT_LE(std::abs(clickHeardLate(speed, 1.0f)), 1) << speed;
}

TEST(AttackGraft, FadesInAndOutWithoutAStep) {
    // Stretched sound and source differ by a constant: what the graft adds is its own fade, whose steepest
    // step over 2.5 ms (110 frames) is pi / 2 / 110 of it.
    std::vector<float> source = band(60000);
    for (float& sample : source)
        sample *= 0.0001f;
    source[30000] += 0.5f;
    AttackGraft graft(rate, 1);
    graft.start(1.0, 0.0, lead);
    const std::vector<float> heard = grafted(graft, 1.0, source, std::vector<float>(40000, 0.1f));
    const long told = 30000 - lead;
    for (long i = told - 400; i < told + 1000; ++i)
        if (i != told && i != told + 1) {
            ASSERT_LT(std::abs(heard[static_cast<std::size_t>(i)] - heard[static_cast<std::size_t>(i) - 1]),
                      0.003f)
                << i - told;
        }
}

TEST(AttackGraft, HushesCopiesThatTheStretchBringsAheadOfAnAttack) {
    std::vector<float> source(60000);
    source[30000] = 0.7f;
    AttackGraft graft(rate, 1);
    graft.start(1.0, 0.0, lead);
    std::vector<float> stretched(40000);
    const long told = 30000 - lead;
    for (const long early : {500L, 1000L, 2000L})
        stretched[static_cast<std::size_t>(told - early)] = 0.5f;
    const std::vector<float> heard = grafted(graft, 1.0, source, stretched);
    // The gain falls over 8 frames; these copies come after that.
    for (long i = 0; i < told; ++i)
        ASSERT_LT(std::abs(heard[static_cast<std::size_t>(i)]), 0.125f) << told - i << " frames ahead";
    EXPECT_FLOAT_EQ(heard[static_cast<std::size_t>(told)], 0.7f);
}

TEST(AttackGraft, LeavesWhatSoundsOnThroughAnAttackToTheStretch) {
    // The stretched band stands in antiphase to the source: faded into each other, they would cancel.
    std::vector<float> source = band(60000);
    std::vector<float> stretched(40000);
    for (std::size_t i = 0; i < stretched.size(); ++i)
        stretched[i] = -source[i + lead];
    // An attack of nothing but treble.
    for (std::size_t i = 0; i < 2000; ++i)
        source[30000 + i] +=
            static_cast<float>((i % 2 == 0 ? 1.2 : -1.2) * std::exp(-static_cast<double>(i) / 200));
    AttackGraft graft(rate, 1);
    graft.start(1.0, 0.0, lead);
    const std::vector<float> heard = grafted(graft, 1.0, source, stretched);
    const long told = 30000 - lead;
    EXPECT_NEAR(static_cast<double>(tests::loudestIn(heard, 0, static_cast<long>(heard.size()))),
                static_cast<double>(told), 3.0);
    // Where the graft fades in and out. The mean of two frames rids the difference of the treble; the band
    // itself goes up to 0.5.
    for (long i = told - 1000; i < told + 1000; ++i) {
        if (i > told - 5 && i < told + 100) continue;
        const auto at = static_cast<std::size_t>(i);
        ASSERT_NEAR(heard[at] - stretched[at] + heard[at + 1] - stretched[at + 1], 0.0f, 0.06f) << i - told;
    }
}

TEST(AttackGraft, MovesTheAttackInPitchWithTheRest) {
    std::vector<float> source(60000);
    for (std::size_t i = 0; i < 3000; ++i)
        source[30000 + i] =
            static_cast<float>(0.5 * std::sin(2 * M_PI * 2000 * static_cast<double>(i) / rate.hertz));
    AttackGraft graft(rate, 1);
    graft.start(1.0, 12.0, lead);
    const std::vector<float> heard = grafted(graft, 1.0, source, std::vector<float>(40000));
    // The 6 ms that are the source's alone.
    const auto attack = std::span(heard).subspan(30000 - lead, 264);
    EXPECT_NEAR(tests::hertzNear(attack, 4000, rate.hertz), 4000.0, 20.0);
}

} // namespace
} // namespace earwright
