// Sound power in two measures that loudness is judged by.
#pragma once

#include <algorithm>

namespace earwright {

/// Mean squares, summed over both ears: plain (what an RMS meter shows) and K-weighted (what EBU R 128 calls
/// momentary loudness, over 400 ms; EBU Tech 3341). Linear power; 1 is a full-scale square wave on one ear.
struct Power {
    double plain = 0;
    double weighted = 0;

    Power& operator+=(const Power& other) {
        plain += other.plain;
        weighted += other.weighted;
        return *this;
    }
    friend Power operator*(const Power& power, double factor) {
        return {power.plain * factor, power.weighted * factor};
    }
    static Power greater(const Power& a, const Power& b) {
        return {std::max(a.plain, b.plain), std::max(a.weighted, b.weighted)};
    }
    friend bool operator==(const Power&, const Power&) = default;
};

/// Length of a momentary measurement (EBU Tech 3341).
inline constexpr double momentarySeconds = 0.4;

} // namespace earwright
