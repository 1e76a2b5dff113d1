#include "core/listening/OnsetTrack.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace earwright {

OnsetTrack::OnsetTrack(Seconds firstPlace, Seconds placeStep, std::vector<Row> allRows)
    : first(firstPlace), spacing(placeStep), rows(std::move(allRows)) {}

Seconds OnsetTrack::timeOf(std::size_t place) const {
    return first + spacing * static_cast<double>(place);
}

std::size_t OnsetTrack::nearest(Seconds time) const {
    assert(!isEmpty());
    const double place = std::round(ratio(time - first, spacing));
    return static_cast<std::size_t>(std::clamp(place, 0.0, static_cast<double>(rows.size() - 1)));
}

float OnsetTrack::anyOnset(std::size_t place) const {
    constexpr float least = 1e-6f;
    return std::log(1 - std::exp(rows[place][noOnset]) + least);
}

} // namespace earwright
