// A number that carries what it counts, so that frames of the recording cannot be added to frames of the
// device.
#pragma once

#include <compare>

namespace earwright {

/// An amount of one kind. Amounts of the same Tag add, subtract and compare; nothing converts to another Tag.
template <class Tag, class Rep>
struct Quantity {
    Rep value{};

    constexpr Quantity() = default;
    constexpr explicit Quantity(Rep amount) : value(amount) {}

    friend constexpr auto operator<=>(Quantity, Quantity) = default;

    constexpr Quantity operator-() const { return Quantity(-value); }
    constexpr Quantity& operator+=(Quantity other) {
        value += other.value;
        return *this;
    }
    constexpr Quantity& operator-=(Quantity other) {
        value -= other.value;
        return *this;
    }
    friend constexpr Quantity operator+(Quantity a, Quantity b) { return a += b; }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return a -= b; }
    friend constexpr Quantity operator*(Quantity a, Rep factor) { return Quantity(a.value * factor); }
    friend constexpr Quantity operator*(Rep factor, Quantity a) { return Quantity(a.value * factor); }
    /// How many times b goes into a: a bare ratio.
    friend constexpr double ratio(Quantity a, Quantity b) {
        return static_cast<double>(a.value) / static_cast<double>(b.value);
    }
};

} // namespace earwright
