#include "core/engine/StretchDelay.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace earwright {

namespace {

// Printed by tests/reference/stretch/CalibrateStretch.cpp with RubberBand 3.1.2. The step near the end is
// real: where the stretch is large, an attack is heard twice, and there the other copy becomes the louder
// one.
constexpr std::array<float, attackTableLast - attackTableFirst + 1> sourceFrames = {
    190, 94,  38,  -6,  78,  -46, 100, 110, 20,  32,  10,  38,  -24, -20, -9,  -7,  -30, -40, -30, -25,
    -25, -21, -11, -15, -6,  0,   6,   17,  29,  39,  52,  66,  86,  105, 112, 119, 128, 129, 141, 143,
    153, 168, 188, 183, 198, 202, 210, 225, 240, 238, 256, 266, 278, 284, 304, 295, 297, 39,  54,  83,
    99,  118, 133, 146, 168, 187, 205, 224, 241, 254, 269, 286, 295, 305, 319, 331, 337, 344, 355};

} // namespace

double attackAdvance(double speed, double semitones) {
    const double steps = semitones - 12.0 * std::log2(speed);
    const double at =
        std::clamp(steps, static_cast<double>(attackTableFirst), static_cast<double>(attackTableLast)) -
        attackTableFirst;
    const auto below = std::min(static_cast<std::size_t>(at), sourceFrames.size() - 2);
    const double share = at - static_cast<double>(below);
    return static_cast<double>(sourceFrames[below]) * (1.0 - share) +
           static_cast<double>(sourceFrames[below + 1]) * share;
}

} // namespace earwright
