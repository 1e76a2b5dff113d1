#include "core/engraving/LineTime.h"

#include "core/study/PlayedTime.h"

#include <algorithm>
#include <iterator>

namespace earwright {

namespace {

constexpr double usualTempo = 120;

} // namespace

LineTime::LineTime(const Study& toPlay) : study(&toPlay), meters(toPlay.meters()) {
    if (study->beatMap.hasTempo()) return;
    const auto secondsPerBeat = [&](double quartersPerMinute) {
        return 60 / quartersPerMinute * 4 / study->meter.beatUnit;
    };
    paces.front().secondsPerBeat = secondsPerBeat(usualTempo);
    bool isFirst = true;
    for (const TempoMark& mark : study->page.tempos) {
        if (!mark.quartersPerMinute) continue;
        Pace next{mark.at.toDouble(), at(mark.at), secondsPerBeat(*mark.quartersPerMinute)};
        if (isFirst) paces.clear();
        isFirst = false;
        paces.push_back(next);
    }
}

Seconds LineTime::at(const Beats& place) const {
    const double beat = study ? playedBeat(*study, meters, place) : place.toDouble();
    if (study && study->beatMap.hasTempo()) return study->beatMap.secondsAt(beat);
    const auto behind =
        std::find_if(paces.begin() + 1, paces.end(), [&](const Pace& pace) { return pace.from > beat; });
    const Pace& pace = *std::prev(behind);
    return pace.begin + Seconds((beat - pace.from) * pace.secondsPerBeat);
}

} // namespace earwright
