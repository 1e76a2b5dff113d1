#include "core/listening/SoundAround.h"

#include <gtest/gtest.h>
#include <numeric>
#include <vector>

namespace earwright {
namespace {

std::vector<float> cutOf(const std::vector<float>& sound, std::ptrdiff_t centre, std::size_t length) {
    std::vector<float> stretch(length, 7);
    SoundAround(length).cut(sound, centre, stretch);
    return stretch;
}

TEST(SoundAround, FadesInAndOutAlikeAboutItsMiddle) {
    const std::vector<float> stretch = cutOf(std::vector<float>(64, 1), 32, 16);
    for (std::size_t i = 0; i < 8; ++i)
        EXPECT_FLOAT_EQ(stretch[i], stretch[15 - i]) << i;
    for (std::size_t i = 1; i < 8; ++i)
        EXPECT_GT(stretch[i], stretch[i - 1]) << i;
    // A Hann window's mean is a half.
    EXPECT_NEAR(std::accumulate(stretch.begin(), stretch.end(), 0.0), 8, 1e-5);
}

TEST(SoundAround, HasItsPlaceInTheMiddle) {
    std::vector<float> click(64);
    click[20] = 1;
    const std::vector<float> stretch = cutOf(click, 20, 16);
    for (std::size_t i = 0; i < stretch.size(); ++i)
        EXPECT_EQ(stretch[i] != 0, i == 8) << i;
}

TEST(SoundAround, IsSilenceBeyondBothEndsOfTheSound) {
    const std::vector<float> sound(10, 1);
    const std::vector<float> early = cutOf(sound, 0, 16);
    const std::vector<float> late = cutOf(sound, 10, 16);
    for (std::size_t i = 0; i < 8; ++i) {
        EXPECT_EQ(early[i], 0) << i;
        EXPECT_EQ(late[8 + i], 0) << i;
        EXPECT_GT(early[8 + i], 0) << i;
        EXPECT_GT(late[i], 0) << i;
    }
    for (const std::ptrdiff_t far : {-1000, 1000})
        for (const float sample : cutOf(sound, far, 16))
            EXPECT_EQ(sample, 0);
}

} // namespace
} // namespace earwright
