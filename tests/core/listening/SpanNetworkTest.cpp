#include "core/listening/SpanNetwork.h"

#include <gtest/gtest.h>
#include <memory>

namespace earwright {
namespace {

TEST(SpanNetwork, AddsWhatRelativesSayToWhatAPitchIsAlone) {
    // The score alone is the first feature; of what is heard among pitches only how probable the one an
    // octave below is counts, twice. Relative −12 is the third, and its probability the last of its seven
    // numbers.
    const auto network = std::make_unique<SpanNetwork>();
    network->alone.direct[0] = 1;
    network->among.direct[2 * SpanNetwork::heardFromEach + SpanNetwork::numbersTold] = 2;
    FeatureTable<spanFeatureCount> features{};
    features[30][0] = 20;
    const PitchRow scores = (*network)(features);
    EXPECT_FLOAT_EQ(scores[30], 20);
    // The only probable pitch tells 2.5; the others, e^-20 times as probable, tell nothing.
    EXPECT_NEAR(scores[42], 5, 1e-4);
    for (const std::size_t pitch : {std::size_t{0}, std::size_t{11}, std::size_t{18}, pitchCount - 1})
        EXPECT_NEAR(scores[pitch], 0, 1e-4) << pitch;
}

} // namespace
} // namespace earwright
