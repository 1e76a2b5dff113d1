#include "core/listening/OnsetTrack.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

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

std::optional<PlacedOnset> OnsetTrack::strongest(std::size_t pitch, const Range<Seconds>& range) const {
    if (isEmpty() || range.end < range.begin) return std::nullopt;
    const Seconds half = spacing * 0.5;
    if (range.end + half < first || range.begin - half > timeOf(size() - 1)) return std::nullopt;
    std::optional<PlacedOnset> strongest;
    const std::size_t last = nearest(range.end);
    for (std::size_t place = nearest(range.begin); place <= last; ++place)
        if (!strongest || rows[place][pitch] > strongest->log)
            strongest = PlacedOnset{rows[place][pitch], timeOf(place)};
    return strongest;
}

float OnsetTrack::anyOnset(std::size_t place) const {
    constexpr float least = 1e-6f;
    return std::log(1 - std::exp(rows[place][noOnset]) + least);
}

} // namespace earwright
