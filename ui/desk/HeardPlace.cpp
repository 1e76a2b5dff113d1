#include "ui/desk/HeardPlace.h"

#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cstdint>
#include <optional>

namespace earwright::ui {

namespace {

constexpr std::int64_t finest = 12; // both halves, thirds, quarters and sixths of a beat are twelfths

bool isTaken(const Study& study, const Beats& place) {
    return std::any_of(study.notes.begin(), study.notes.end(),
                       [&](const Note& note) { return note.onset == place; });
}

/// The column before or after a place that is near enough.
std::optional<Beats> columnNear(const Study& study, double place) {
    constexpr double after = 1.0 / 6, before = 1.0 / 12;
    const std::int64_t beat = Beats::nearest(place, finest).floor();
    std::optional<Beats> best;
    double nearest = after;
    for (std::int64_t at = beat - 1; at <= beat + 1; ++at) {
        const auto parts = static_cast<std::int64_t>(study.divisionOf(at));
        for (std::int64_t part = 0; part < parts; ++part) {
            const Beats column = Beats(at) + Beats(part, parts);
            const double behind = place - column.toDouble();
            const double away = behind < 0 ? -behind * after / before : behind;
            if (away > nearest || isTaken(study, column)) continue;
            best = column;
            nearest = away;
        }
    }
    return best;
}

} // namespace

Range<Beats> heardPlace(const Study& study, const Range<Seconds>& time) {
    const Beats end = Beats::nearest(study.beatMap.beatsAt(time.end), finest);
    Beats begin = writtenPlace(study, time.begin, finest);
    // Where the study says how the beat swings its halves are found already.
    if (study.page.swingAt(begin).isEven())
        begin = columnNear(study, study.beatMap.beatsAt(time.begin)).value_or(begin);
    return {begin, std::max(end, begin + Beats(1, finest))};
}

} // namespace earwright::ui
