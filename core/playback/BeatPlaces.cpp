#include "core/playback/BeatPlaces.h"

#include <cmath>

namespace earwright {

namespace {

/// Two marks set on one spot by mistake would make beats by the million.
constexpr double mostBeats = 200'000;

} // namespace

std::vector<BeatPlace> beatPlaces(const Study& study, Seconds duration) {
    std::vector<BeatPlace> places;
    const BeatMap& map = study.beatMap;
    if (!map.hasTempo() || duration <= Seconds(0)) return places;
    const double first = map.beatsAt(Seconds(0));
    const double last = map.beatsAt(duration);
    if (last - first > mostBeats) return places;
    const MeterMap meters = study.meters();
    Beats beat = meters.countStart(Beats(static_cast<std::int64_t>(std::floor(first))));
    for (; beat.toDouble() <= last; beat = meters.nextCount(beat)) {
        if (beat.toDouble() < first - 1e-9) continue;
        const Frames at = study.recording.rate.frames(map.seconds(beat));
        if (at >= Frames(0) && (places.empty() || places.back().at < at))
            places.push_back({at, meters.isBarLine(beat)});
    }
    return places;
}

} // namespace earwright
