#include "core/playback/BeatPlaces.h"

#include <cmath>

namespace earwright {

namespace {

/// Two marks set on one spot by mistake would make beats by the million.
constexpr std::int64_t mostBeats = 200'000;

} // namespace

std::vector<BeatPlace> beatPlaces(const Study& study, Seconds duration) {
    std::vector<BeatPlace> places;
    const BeatMap& map = study.beatMap;
    if (!map.hasTempo() || duration <= Seconds(0)) return places;
    const auto first = std::llround(std::ceil(map.beatsAt(Seconds(0)) - 1e-9));
    const auto last = std::llround(std::floor(map.beatsAt(duration)));
    if (last - first > mostBeats) return places;
    for (std::int64_t beat = first; beat <= last; ++beat) {
        const Frames at = study.recording.rate.frames(map.seconds(Beats(beat)));
        const bool opensBar = study.meter.withinBar(Beats(beat)) == Beats(0);
        if (at >= Frames(0) && (places.empty() || places.back().at < at)) places.push_back({at, opensBar});
    }
    return places;
}

} // namespace earwright
