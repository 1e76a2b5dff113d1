#include "core/time/Beats.h"

#include <cassert>
#include <cmath>
#include <numeric>

namespace earwright {

Beats::Beats(std::int64_t numerator, std::int64_t denominator) : num(numerator), den(denominator) {
    assert(denominator != 0);
    const std::int64_t common = std::gcd(num, den) * (den < 0 ? -1 : 1);
    num /= common;
    den /= common;
}

std::int64_t Beats::floor() const {
    const std::int64_t quotient = num / den;
    return num % den < 0 ? quotient - 1 : quotient;
}

Beats Beats::fraction() const {
    return *this - Beats(floor());
}

Beats Beats::nearest(double beats, std::int64_t parts) {
    assert(parts > 0);
    return Beats(static_cast<std::int64_t>(std::floor(beats * static_cast<double>(parts) + 0.5)), parts);
}

Beats Beats::operator-() const {
    Beats negative = *this;
    negative.num = -negative.num;
    return negative;
}

Beats& Beats::operator+=(const Beats& other) {
    return *this = Beats(num * other.den + other.num * den, den * other.den);
}

Beats& Beats::operator-=(const Beats& other) {
    return *this += -other;
}

Beats operator*(const Beats& a, std::int64_t factor) {
    return Beats(a.num * factor, a.den);
}

Beats operator/(const Beats& a, std::int64_t divisor) {
    return Beats(a.num, a.den * divisor);
}

std::string toString(const Beats& beats) {
    std::string text = std::to_string(beats.numerator());
    if (beats.denominator() != 1) text += "/" + std::to_string(beats.denominator());
    return text;
}

} // namespace earwright
