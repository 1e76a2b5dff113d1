#include "core/sound/Resampler.h"

#include <cmath>
#include <gtest/gtest.h>
#include <numbers>
#include <vector>

namespace earwright {
namespace {

TEST(Resampler, KeepsEverySampleInItsPlace) {
    constexpr double ratio = 48000.0 / 44100.0;
    constexpr double step = 2.0 * std::numbers::pi * 1000.0 / 44100.0;
    std::vector<float> in(8820);
    for (std::size_t i = 0; i < in.size(); ++i)
        in[i] = static_cast<float>(std::sin(step * static_cast<double>(i)));
    Resampler resampler(1, ratio);
    std::vector<float> out(12000);
    std::size_t taken = 0;
    std::size_t made = 0;
    // In odd pieces, as the engine feeds it.
    while (taken < in.size()) {
        const auto piece = std::span(in).subspan(taken, std::min<std::size_t>(611, in.size() - taken));
        const auto did =
            resampler.process(piece, std::span(out).subspan(made), taken + piece.size() == in.size());
        taken += did.framesTaken;
        made += did.framesMade;
    }
    EXPECT_NEAR(static_cast<double>(made), 9600.0, 2.0);
    for (std::size_t i = 1000; i < 8600; ++i)
        ASSERT_NEAR(out[i], std::sin(step * static_cast<double>(i) / ratio), 1e-3) << i;
}

TEST(Resampler, StartsAfreshAfterAReset) {
    Resampler resampler(1, 2.0);
    std::vector<float> loud(4000, 1.0f);
    std::vector<float> out(8000);
    resampler.process(loud, out, false);
    resampler.reset();
    const std::vector<float> silence(4000, 0.0f);
    const auto did = resampler.process(silence, out, false);
    ASSERT_GT(did.framesMade, 4000u);
    for (std::size_t i = 0; i < did.framesMade; ++i)
        ASSERT_FLOAT_EQ(out[i], 0.0f);
}

} // namespace
} // namespace earwright
