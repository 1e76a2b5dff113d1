#include "core/listening/TuningCurve.h"

#include <algorithm>
#include <cmath>

namespace earwright {

double TuningCurve::centsAt(Seconds time) const {
    if (knots.empty()) return overall;
    const double place = std::clamp(ratio(time, step), 0.0, static_cast<double>(knots.size() - 1));
    const auto below = static_cast<std::size_t>(place);
    const std::size_t above = std::min(below + 1, knots.size() - 1);
    return knots[below] + (place - static_cast<double>(below)) * (knots[above] - knots[below]);
}

TuningCurve TuningCurve::moved(double cents) const {
    TuningCurve other = *this;
    other.overall += cents;
    for (double& knot : other.knots)
        knot += cents;
    return other;
}

double TuningCurve::reach() const {
    if (knots.empty()) return 0;
    const auto [least, most] = std::minmax_element(knots.begin(), knots.end());
    return *most - *least;
}

} // namespace earwright
