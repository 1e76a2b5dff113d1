#include "core/check/MistakePrior.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

constexpr int middleC = 60;

float chance(const PitchRow& row, int midi) {
    return std::exp(row[static_cast<std::size_t>(midi - lowestHeardMidi)]);
}

TEST(MistakePrior, SharesAllOfTheProbabilityOutWhereverANoteIsWritten) {
    for (const int written : {lowestHeardMidi, middleC, highestHeardMidi})
        EXPECT_NEAR(logSumExp(playedWhereWritten(written).log), 0, 1e-4) << written;
}

TEST(MistakePrior, TrustsWhatIsWrittenMoreThanAllElseTogether) {
    EXPECT_GT(chance(playedWhereWritten(middleC), middleC), 0.5f);
}

TEST(MistakePrior, ExpectsASemitoneOrAnOctaveRatherThanASixthAndThatRatherThanTwoOctaves) {
    const PitchRow row = playedWhereWritten(middleC);
    for (const int side : {-1, 1}) {
        const float sixth = chance(row, middleC + 9 * side);
        EXPECT_GT(chance(row, middleC + side), sixth);
        EXPECT_GT(chance(row, middleC + 12 * side), sixth);
        EXPECT_LT(chance(row, middleC + 24 * side), sixth);
    }
}

TEST(MistakePrior, IsTheSameUpwardsAndDownwards) {
    const PitchRow row = playedWhereWritten(middleC);
    for (int apart = 1; apart <= 24; ++apart)
        EXPECT_FLOAT_EQ(chance(row, middleC + apart), chance(row, middleC - apart)) << apart;
}

} // namespace
} // namespace earwright
