// Musical time as written: an exact fraction of beats, so that three triplets make one beat and not 0.9999 of
// it.
#pragma once

#include <compare>
#include <cstdint>
#include <string>

namespace earwright {

/// Beats from the start of bar 1, or a length in beats. Always in lowest terms, denominator positive.
/// Range: numerators and denominators stay far below 2^31 in any music; arithmetic is done in 64 bits.
class Beats {
public:
    constexpr Beats() = default;
    constexpr explicit Beats(std::int64_t whole) : num(whole) {}
    /// numerator / denominator beats. Requires: denominator != 0.
    Beats(std::int64_t numerator, std::int64_t denominator);

    constexpr std::int64_t numerator() const { return num; }
    constexpr std::int64_t denominator() const { return den; }
    constexpr double toDouble() const { return static_cast<double>(num) / static_cast<double>(den); }

    /// The largest whole number of beats not after this place: −1/3 gives −1.
    std::int64_t floor() const;
    /// What is left after floor(): in [0, 1).
    Beats fraction() const;
    /// The nearest multiple of 1/parts beat; halves go up. Requires: parts > 0.
    static Beats nearest(double beats, std::int64_t parts);

    Beats operator-() const;
    Beats& operator+=(const Beats& other);
    Beats& operator-=(const Beats& other);
    friend Beats operator+(Beats a, const Beats& b) { return a += b; }
    friend Beats operator-(Beats a, const Beats& b) { return a -= b; }
    friend Beats operator*(const Beats& a, std::int64_t factor);
    /// Requires: divisor != 0.
    friend Beats operator/(const Beats& a, std::int64_t divisor);

    friend constexpr bool operator==(const Beats&, const Beats&) = default;
    friend constexpr std::strong_ordering operator<=>(const Beats& a, const Beats& b) {
        return a.num * b.den <=> b.num * a.den;
    }

private:
    std::int64_t num = 0;
    std::int64_t den = 1;
};

/// "3", "7/2" or "-1/3": the form study files keep.
std::string toString(const Beats& beats);

} // namespace earwright
