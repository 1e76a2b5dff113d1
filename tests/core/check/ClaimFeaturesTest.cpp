#include "core/check/ClaimFeatures.h"

#include "tests/core/listening/SyntheticSound.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

constexpr int midi = 60;

/// Two claims over a track in which nothing begins: the first of them of the pitch that is asked about.
ClaimContext twoClaims(const Range<Seconds>& first, const Range<Seconds>& second) {
    OnsetTrack::Row nothing;
    nothing.fill(-12);
    nothing[OnsetTrack::noOnset] = 0;
    return {{{first, midi}, {second, midi + 2}},
            ViewBlend({0.0}),
            {},
            {},
            {},
            OnsetTrack(0.0_s, 0.01_s, std::vector(300, nothing))};
}

ClaimContext withOnsetAt(ClaimContext context, Seconds time, double probability) {
    std::vector<OnsetTrack::Row> rows;
    for (std::size_t place = 0; place < context.onsets.size(); ++place)
        rows.push_back(context.onsets[place]);
    rows[context.onsets.nearest(time)][midi - lowestHeardMidi] = static_cast<float>(std::log(probability));
    context.onsets = OnsetTrack(0.0_s, 0.01_s, rows);
    return context;
}

TEST(SoundingOn, IsWhatWasStruckUpToHalfASecondAgo) {
    EXPECT_TRUE(soundsOnFromBefore(twoClaims({1.0_s, 1.2_s}, {1.2_s, 1.4_s}), 1, midi));
    EXPECT_TRUE(soundsOnFromBefore(twoClaims({1.0_s, 1.48_s}, {1.48_s, 1.6_s}), 1, midi));
    EXPECT_FALSE(soundsOnFromBefore(twoClaims({1.0_s, 1.6_s}, {1.6_s, 1.8_s}), 1, midi));
}

TEST(SoundingOn, IsNoOtherPitchAndNothingBeforeTheFirstNote) {
    const ClaimContext context = twoClaims({1.0_s, 1.2_s}, {1.2_s, 1.4_s});
    EXPECT_FALSE(soundsOnFromBefore(context, 1, midi + 1));
    EXPECT_FALSE(soundsOnFromBefore(context, 0, midi));
}

TEST(SoundingOn, IsNotWhatIsWrittenAsOver) {
    EXPECT_TRUE(soundsOnFromBefore(twoClaims({1.0_s, 1.18_s}, {1.2_s, 1.4_s}), 1, midi));
    EXPECT_FALSE(soundsOnFromBefore(twoClaims({1.0_s, 1.1_s}, {1.2_s, 1.4_s}), 1, midi));
}

TEST(SoundingOn, IsNotWhatBeginsAnew) {
    const ClaimContext context = twoClaims({1.0_s, 1.2_s}, {1.2_s, 1.4_s});
    EXPECT_FALSE(soundsOnFromBefore(withOnsetAt(context, 1.21_s, 0.8), 1, midi));
    EXPECT_TRUE(soundsOnFromBefore(withOnsetAt(context, 1.21_s, 0.3), 1, midi));
    EXPECT_TRUE(soundsOnFromBefore(withOnsetAt(context, 1.0_s, 0.8), 1, midi)) << "the first one's own";
}

} // namespace
} // namespace earwright
