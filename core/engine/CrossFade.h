// How one sound gives way to another within some 10 ms.
#pragma once

#include <cmath>

namespace earwright {

/// Of the sound that comes in, at a share from 0 to 1 of the fade; the other keeps the rest.
///
/// Where both are the same tone of angular frequency w, however far apart in phase, the largest slope of
/// their mixture is w times √((1 − g)² + (g' ÷ w)²) + √(g² + (g' ÷ w)²): the weights g and 1 − g of the two
/// and how fast they change, with the phases in which all adds up. That is the sum of the distances of the
/// point (g, g' ÷ w) from (0, 0) and (1, 0). So the fade that is over soonest for a largest slope of 2a · w
/// goes along an ellipse, which is this sine. With a = 0.61, 1.22 times the tone's own slope, it takes 2
/// asin(0.5 ÷ a) a ÷ √(a² − 0.25) ÷ w: 13 ms for the low E of a bass (41.2 Hz), with room for a tone that
/// wavers a little as it is stretched.
inline double fadeIn(double share) {
    constexpr double a = 0.61;
    constexpr double end = 0.96083842; // asin(0.5 ÷ a)
    if (share <= 0) return 0;
    if (share >= 1) return 1;
    return 0.5 + a * std::sin((2 * share - 1) * end);
}

} // namespace earwright
