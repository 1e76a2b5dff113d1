// A small feed-forward network: some linear part, and one layer of rectified units.
#pragma once

#include "core/listening/WideVectors.h"

#include <array>
#include <cstddef>
#include <span>

namespace earwright {

/// y = bias + direct·x + Σ out_k · max(0, hiddenBias_k + hidden_k·x).
///
/// Weights are constants of the program (core/listening/NetworkWeights.cpp); the sizes are fixed so that the
/// loops over units can be turned into vector instructions.
template <std::size_t Inputs, std::size_t Units>
struct SmallNetwork {
    /// One row an input.
    std::array<std::array<float, Units>, Inputs> hidden;
    std::array<float, Units> hiddenBias;
    std::array<float, Units> out;
    std::array<float, Inputs> direct;
    float bias;

    EARWRIGHT_INLINE std::array<float, Units> activeUnits(std::span<const float, Inputs> x) const {
        std::array<float, Units> units = hiddenBias;
        for (std::size_t i = 0; i < Inputs; ++i)
            for (std::size_t k = 0; k < Units; ++k)
                units[k] += hidden[i][k] * x[i];
        for (float& unit : units)
            unit = unit > 0 ? unit : 0;
        return units;
    }

    /// The answer for inputs whose active units are known.
    EARWRIGHT_INLINE float from(const std::array<float, Units>& active,
                                std::span<const float, Inputs> x) const {
        float y = bias;
        for (std::size_t i = 0; i < Inputs; ++i)
            y += direct[i] * x[i];
        for (std::size_t k = 0; k < Units; ++k)
            y += out[k] * active[k];
        return y;
    }

    EARWRIGHT_INLINE float operator()(std::span<const float, Inputs> x) const {
        return from(activeUnits(x), x);
    }
};

} // namespace earwright
