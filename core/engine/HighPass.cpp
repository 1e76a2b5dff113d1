#include "core/engine/HighPass.h"

#include <algorithm>
#include <cmath>

namespace earwright {

HighPass::HighPass(double hertz, SampleRate rate) {
    // The two pairs of poles of a Butterworth filter of the fourth order.
    constexpr std::array<double, 2> quality{0.54119610, 1.30656296};
    const double turn = 2.0 * M_PI * std::min(hertz / rate.hertz, 0.45);
    for (std::size_t i = 0; i < sections.size(); ++i) {
        const double alpha = std::sin(turn) / (2.0 * quality[i]);
        const double whole = 1.0 + alpha;
        const double edge = (1.0 + std::cos(turn)) / 2.0;
        sections[i].ahead = static_cast<float>(edge / whole);
        sections[i].middle = static_cast<float>(-2.0 * edge / whole);
        sections[i].back1 = static_cast<float>(-2.0 * std::cos(turn) / whole);
        sections[i].back2 = static_cast<float>((1.0 - alpha) / whole);
    }
}

} // namespace earwright
