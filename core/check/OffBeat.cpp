#include "core/check/OffBeat.h"

#include "core/time/BeatRatio.h"

#include <algorithm>
#include <optional>

namespace earwright {

namespace {

/// The pair around a place, if the place is where an off-beat eighth is written in it.
std::optional<OffBeat> offBeatAt(const Beats& place, const Study& study, const MeterMap& meters) {
    const auto pair = quarterAround(place, study, meters);
    if (!pair) return std::nullopt;
    const Beats share = ratio(place - pair->begin, pair->length());
    if (share != Beats(1, 2) && share != Beats(2, 3)) return std::nullopt;
    return OffBeat{place, *pair};
}

/// Whether the pair holds a second division: a note other than the off-beat one.
bool isDividedFurther(const OffBeat& offBeat, const std::vector<Note>& notes) {
    return std::any_of(notes.begin(), notes.end(), [&](const Note& note) {
        return offBeat.pair.begin < note.onset && note.onset < offBeat.pair.end &&
               note.onset != offBeat.place;
    });
}

} // namespace

std::optional<Range<Beats>> quarterAround(const Beats& place, const Study& study, const MeterMap& meters) {
    // Three eighths that are counted as one are no pairs.
    if (meters.at(meters.barOf(place)).unitsPerCount() != 1) return std::nullopt;
    const Beats quarter{study.meter.beatUnit, 4};
    const Beats share = ratio(meters.withinBar(place), quarter).fraction();
    const Beats begin =
        place - Beats(share.numerator() * quarter.numerator(), share.denominator() * quarter.denominator());
    return Range<Beats>{begin, begin + quarter};
}

std::vector<OffBeat> offBeats(const Study& study, const std::vector<Note>& notes) {
    std::vector<OffBeat> found;
    const MeterMap meters = study.meters();
    for (const Note& note : notes) {
        if (!found.empty() && found.back().place == note.onset) continue;
        const auto offBeat = offBeatAt(note.onset, study, meters);
        if (offBeat && !isDividedFurther(*offBeat, notes)) found.push_back(*offBeat);
    }
    return found;
}

Range<Seconds> swingReach(const Range<Seconds>& pair) {
    constexpr double earliest = 0.38;
    constexpr double latest = 0.82;
    return {pair.begin + pair.length() * earliest, pair.begin + pair.length() * latest};
}

Range<Seconds> reachOf(const OffBeat& offBeat, const Study& study) {
    return swingReach(study.beatMap.seconds(offBeat.pair));
}

} // namespace earwright
