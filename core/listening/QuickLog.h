// Logarithms and powers of many numbers at once.
#pragma once

#include "core/listening/WideVectors.h"

#include <bit>
#include <cstdint>
#include <limits>

namespace earwright {

/// ln x to within 3e-7 (of the larger of 1 and the result), without branches, so that a loop over it becomes
/// vector instructions. The polynomial is that of logf in the Cephes library (Moshier 1992).
/// Requires: x positive, normal and finite.
EARWRIGHT_INLINE inline float quickLog(float x) {
    static_assert(std::numeric_limits<float>::is_iec559);
    // x = m · 2^e with m between √½ and √2.
    constexpr std::int32_t rootOfHalf = 0x3f3504f3;
    const auto bits = std::bit_cast<std::int32_t>(x);
    const std::int32_t exponent = (bits - rootOfHalf) >> 23;
    const float z = std::bit_cast<float>(bits - exponent * (1 << 23)) - 1;
    const auto e = static_cast<float>(exponent);
    float y = 7.0376836292e-2f;
    y = y * z - 1.1514610310e-1f;
    y = y * z + 1.1676998740e-1f;
    y = y * z - 1.2420140846e-1f;
    y = y * z + 1.4249322787e-1f;
    y = y * z - 1.6668057665e-1f;
    y = y * z + 2.0000714765e-1f;
    y = y * z - 2.4999993993e-1f;
    y = y * z + 3.3333331174e-1f;
    y = y * z * z * z - 2.12194440e-4f * e - 0.5f * z * z;
    return z + y + 0.693359375f * e;
}

/// e^x to within 3e-7 of the result, in the same way. Requires: −87 < x < 88.
EARWRIGHT_INLINE inline float quickExp(float x) {
    constexpr float perDoubling = 1.44269504088896341f;
    // Added and taken off again, it leaves the nearest whole number.
    constexpr float rounding = 12582912.0f;
    const float rounded = x * perDoubling + rounding;
    const float n = rounded - rounding;
    const float r = x - n * 0.693359375f + n * 2.12194440e-4f;
    float y = 1.9875691500e-4f;
    y = y * r + 1.3981999507e-3f;
    y = y * r + 8.3334519073e-3f;
    y = y * r + 4.1665795894e-2f;
    y = y * r + 1.6666665459e-1f;
    y = y * r + 5.0000001201e-1f;
    y = y * r * r + r + 1;
    const std::int32_t power = (static_cast<std::int32_t>(n) + 127) * (1 << 23);
    return y * std::bit_cast<float>(power);
}

} // namespace earwright
