#include "core/engine/MonitorTap.h"

#include "tests/core/engine/HeldRecording.h"

#include <cmath>
#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

/// What comes out when a tone of 440 Hz goes in by one clock and is taken out by another, for `seconds`.
std::vector<float> through(MonitorTap& tap, double inputHertz, SampleRate named, SampleRate out,
                           double seconds) {
    std::vector<float> heard;
    std::vector<float> part(64);
    double due = 0;
    std::int64_t at = 0;
    while (static_cast<double>(heard.size()) < seconds * out.hertz) {
        due += 64.0 * inputHertz / out.hertz;
        std::vector<float> in;
        for (; static_cast<double>(at) < due; ++at)
            in.push_back(0.5f *
                         static_cast<float>(std::sin(2 * M_PI * 440 * static_cast<double>(at) / inputHertz)));
        tap.write(in, named);
        std::fill(part.begin(), part.end(), 0.0f);
        tap.add(part, out);
        heard.insert(heard.end(), part.begin(), part.end());
    }
    return heard;
}

double largestStep(const std::vector<float>& samples, std::size_t from) {
    double largest = 0;
    for (std::size_t i = from + 1; i < samples.size(); ++i)
        largest = std::max(largest, static_cast<double>(std::abs(samples[i] - samples[i - 1])));
    return largest;
}

TEST(MonitorTap, IsSilentUntilAskedToBeHeard) {
    MonitorTap tap;
    EXPECT_EQ(tests::rootMeanSquare(through(tap, 48000, SampleRate{48000}, SampleRate{48000}, 0.2)), 0.0);
}

TEST(MonitorTap, LetsAToneThroughAtItsPitchAndLevel) {
    MonitorTap tap;
    tap.setHeard(true);
    const auto heard = through(tap, 48000, SampleRate{48000}, SampleRate{48000}, 2);
    const auto steady = std::span(heard).subspan(48000);
    EXPECT_NEAR(tests::rootMeanSquare(steady), 0.5 / std::sqrt(2.0), 0.005);
    EXPECT_NEAR(tests::cents(tests::hertzNear(steady.first(24000), 440, 48000), 440), 0, 0.5);
}

TEST(MonitorTap, BridgesTwoRatesAndTwoClocksWithoutABreak) {
    MonitorTap tap;
    tap.setHeard(true);
    // The input calls itself 44.1 kHz and is 100 millionths fast.
    const auto heard = through(tap, 44100 * 1.0001, SampleRate{44100}, SampleRate{48000}, 20);
    // The tone's own largest step is 0.5 · 2π · 440 ÷ 48000 = 0.0288.
    EXPECT_LT(largestStep(heard, 48000), 0.0288 * 1.05);
    // 3.5 cents is the most that catching up may bend it.
    const auto late = std::span(heard).subspan(19 * 48000, 24000);
    EXPECT_NEAR(tests::cents(tests::hertzNear(late, 440, 48000), 440), 0, 3.5);
}

TEST(MonitorTap, FadesWhenItIsSwitchedOffAndFollowsItsLevel) {
    MonitorTap tap;
    tap.setHeard(true);
    tap.setLevel(0.5f);
    auto heard = through(tap, 48000, SampleRate{48000}, SampleRate{48000}, 1);
    EXPECT_NEAR(tests::rootMeanSquare(std::span(heard).subspan(24000)), 0.25 / std::sqrt(2.0), 0.005);
    tap.setHeard(false);
    heard = through(tap, 48000, SampleRate{48000}, SampleRate{48000}, 0.1);
    EXPECT_EQ(heard.back(), 0.0f);
    EXPECT_LT(largestStep(heard, 0), 0.0288);
}

} // namespace
} // namespace earwright
