#include "core/listening/SoundAround.h"

#include <cassert>
#include <cmath>
#include <numbers>

namespace earwright {

SoundAround::SoundAround(std::size_t length) : weights(length) {
    for (std::size_t i = 0; i < length; ++i)
        weights[i] =
            static_cast<float>(0.5 - 0.5 * std::cos(2 * std::numbers::pi * (static_cast<double>(i) + 0.5) /
                                                    static_cast<double>(length)));
}

void SoundAround::cut(std::span<const float> sound, std::ptrdiff_t centre, std::span<float> out) const {
    assert(out.size() == weights.size());
    const std::ptrdiff_t first = centre - static_cast<std::ptrdiff_t>(weights.size() / 2);
    for (std::size_t i = 0; i < out.size(); ++i) {
        const std::ptrdiff_t at = first + static_cast<std::ptrdiff_t>(i);
        const bool inside = at >= 0 && at < std::ssize(sound);
        out[i] = inside ? sound[static_cast<std::size_t>(at)] * weights[i] : 0;
    }
}

} // namespace earwright
