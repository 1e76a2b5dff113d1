#include "ui/desk/HeardPlace.h"

#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>

namespace earwright::ui {

namespace {

constexpr std::int64_t finest = 12; // both halves, thirds, quarters and sixths of a beat are twelfths

bool isTaken(const Study& study, const Beats& place) {
    return std::any_of(study.notes.begin(), study.notes.end(),
                       [&](const Note& note) { return note.onset == place; });
}

/// How far behind its column a sound may lie, in beats. Eighths swing; within finer divisions the next third
/// or quarter of the beat is near.
double farthestBehind(std::int64_t parts) {
    return parts <= 2 ? 1.0 / 6 : 1.0 / 12;
}

/// The column before or after a place that is near enough.
std::optional<Beats> columnNear(const Study& study, double place) {
    const std::int64_t beat = Beats::nearest(place, finest).floor();
    std::optional<Beats> best;
    double nearest = 1;
    for (std::int64_t at = beat - 1; at <= beat + 1; ++at) {
        const auto parts = static_cast<std::int64_t>(study.divisionOf(at));
        // Half as far ahead.
        const double after = farthestBehind(parts);
        for (std::int64_t part = 0; part < parts; ++part) {
            const Beats column = Beats(at) + Beats(part, parts);
            const double behind = place - column.toDouble();
            const double away = (behind < 0 ? -2 * behind : behind) / after;
            if (away > nearest || isTaken(study, column)) continue;
            best = column;
            nearest = away;
        }
    }
    return best;
}

/// The nearest quarter or third of a beat, where notes stand; a line lies some 20 ms behind its places.
Beats likelyPlace(const Study& study, Seconds time) {
    constexpr Seconds lag{0.020};
    const double place = study.beatMap.beatsAt(time - lag);
    const Beats quarter = Beats::nearest(place, 4), third = Beats::nearest(place, 3);
    return std::abs(third.toDouble() - place) < std::abs(quarter.toDouble() - place) ? third : quarter;
}

} // namespace

Range<Beats> heardPlace(const Study& study, const Range<Seconds>& time) {
    const Beats end = Beats::nearest(study.beatMap.beatsAt(time.end), finest);
    Beats begin = writtenPlace(study, time.begin, finest);
    // Where the study says how the beat swings its halves are found already.
    if (study.page.swingAt(begin).isEven())
        begin = columnNear(study, study.beatMap.beatsAt(time.begin)).value_or(likelyPlace(study, time.begin));
    return {begin, std::max(end, begin + Beats(1, finest))};
}

} // namespace earwright::ui
