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

    /// What the units say to several inputs at once, as many units at a time as a vector holds: one weight
    /// read serves all inputs, and none of their sums has to wait for another.
    template <class Vector, std::size_t Rows>
    EARWRIGHT_INLINE void activeUnits(std::span<const std::array<float, Inputs>, Rows> x,
                                      std::array<std::array<float, Units>, Rows>& active) const {
        static_assert(Units % wideSize == 0);
        constexpr std::size_t atOnce = sizeof(Vector) / sizeof(float);
        constexpr std::size_t whole = Units / atOnce * atOnce;
        for (std::size_t first = 0; first < whole; first += atOnce)
            unitsFrom<Vector>(first, x, active);
        for (std::size_t first = whole; first < Units; first += wideSize)
            unitsFrom<Wide>(first, x, active);
    }

    /// The answers for inputs whose active units are known.
    template <std::size_t Rows>
    EARWRIGHT_INLINE void from(const std::array<std::array<float, Units>, Rows>& active,
                               std::span<const std::array<float, Inputs>, Rows> x,
                               std::array<float, Rows>& y) const {
        for (std::size_t row = 0; row < Rows; ++row)
            y[row] = bias + dot(direct, x[row]) + dot(out, active[row]);
    }

    /// The answers for several inputs at once.
    template <class Vector, std::size_t Rows>
    EARWRIGHT_INLINE void of(std::span<const std::array<float, Inputs>, Rows> x,
                             std::array<float, Rows>& y) const {
        std::array<std::array<float, Units>, Rows> active;
        activeUnits<Vector>(x, active);
        from(active, x, y);
    }

    /// The answer for one input, whatever the number of units.
    float operator()(std::span<const float, Inputs> x) const {
        float y = bias;
        for (std::size_t i = 0; i < Inputs; ++i)
            y += direct[i] * x[i];
        for (std::size_t k = 0; k < Units; ++k) {
            float unit = hiddenBias[k];
            for (std::size_t i = 0; i < Inputs; ++i)
                unit += hidden[i][k] * x[i];
            y += out[k] * (unit > 0 ? unit : 0);
        }
        return y;
    }

private:
    template <class Vector, std::size_t Rows>
    EARWRIGHT_INLINE void unitsFrom(std::size_t first, std::span<const std::array<float, Inputs>, Rows> x,
                                    std::array<std::array<float, Units>, Rows>& active) const {
        Vector sums[Rows];
        for (Vector& sum : sums)
            load(sum, &hiddenBias[first]);
        for (std::size_t i = 0; i < Inputs; ++i) {
            Vector weights;
            load(weights, &hidden[i][first]);
            for (std::size_t row = 0; row < Rows; ++row)
                sums[row] += weights * x[row][i];
        }
        for (std::size_t row = 0; row < Rows; ++row) {
            const Vector rectified = sums[row] > 0 ? sums[row] : Vector{};
            store(&active[row][first], rectified);
        }
    }

    /// Eight sums side by side, added up at the end.
    template <std::size_t Size>
    EARWRIGHT_INLINE static float dot(const std::array<float, Size>& a, const std::array<float, Size>& b) {
        constexpr std::size_t whole = Size / wideSize * wideSize;
        Wide sums{};
        for (std::size_t i = 0; i < whole; i += wideSize) {
            Wide left;
            Wide right;
            load(left, &a[i]);
            load(right, &b[i]);
            sums += left * right;
        }
        float sum = 0;
        for (std::size_t i = 0; i < wideSize; ++i)
            sum += sums[i];
        for (std::size_t i = whole; i < Size; ++i)
            sum += a[i] * b[i];
        return sum;
    }
};

} // namespace earwright
