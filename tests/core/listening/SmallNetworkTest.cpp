#include "core/listening/SmallNetwork.h"

#include <array>
#include <gtest/gtest.h>
#include <memory>
#include <random>
#include <span>

namespace earwright {
namespace {

constexpr std::size_t inputs = 21;
/// Not a multiple of the widest vectors, so that some are left over.
constexpr std::size_t units = 24;
constexpr std::size_t rows = 8;
using Network = SmallNetwork<inputs, units>;

TEST(SmallNetwork, AnswersAlikeForOneInputAndForSeveralAtOnce) {
    std::mt19937 random(11);
    std::uniform_real_distribution<float> weight(-1, 1);
    const auto network = std::make_unique<Network>();
    for (auto& row : network->hidden)
        for (float& value : row)
            value = weight(random);
    for (auto* numbers : {&network->hiddenBias, &network->out})
        for (float& value : *numbers)
            value = weight(random);
    for (float& value : network->direct)
        value = weight(random);
    network->bias = 0.25f;
    std::array<std::array<float, inputs>, rows> x;
    for (auto& row : x)
        for (float& value : row)
            value = weight(random);

    const std::span<const std::array<float, inputs>, rows> all(x);
    std::array<float, rows> together;
    network->of<Wide>(all, together);
    std::array<float, rows> byWidest;
    network->of<Widest>(all, byWidest);
    for (std::size_t row = 0; row < rows; ++row) {
        // Worked out here once more, in double precision.
        double y = network->bias;
        for (std::size_t k = 0; k < units; ++k) {
            double unit = network->hiddenBias[k];
            for (std::size_t i = 0; i < inputs; ++i)
                unit += static_cast<double>(network->hidden[i][k]) * x[row][i];
            y += network->out[k] * (unit > 0 ? unit : 0);
        }
        for (std::size_t i = 0; i < inputs; ++i)
            y += static_cast<double>(network->direct[i]) * x[row][i];
        EXPECT_NEAR(together[row], y, 1e-5) << row;
        EXPECT_NEAR(byWidest[row], y, 1e-5) << row;
        EXPECT_NEAR((*network)(x[row]), y, 1e-5) << row;
    }
}

} // namespace
} // namespace earwright
