#include "core/study/MarkEdits.h"

#include "core/study/Limits.h"

#include <algorithm>

namespace earwright {

namespace {

/// The study with the map, unless that goes too far.
Study withMap(const Study& study, BeatMap map) {
    if (!isWithinLimits(map)) return study;
    Study edited = study;
    edited.beatMap = std::move(map);
    return edited;
}

} // namespace

Study tapBar(const Study& study, Seconds time) {
    if (!isWithinLimits(time)) return study;
    return withMap(study, study.beatMap.tappedBar(time, study.meters()));
}

Study tapBeat(const Study& study, Seconds time) {
    if (!isWithinLimits(time)) return study;
    return withMap(study, study.beatMap.tappedBeat(time, study.meters()));
}

Study insertMark(const Study& study, Seconds time) {
    if (!isWithinLimits(time)) return study;
    if (!study.beatMap.hasTempo()) return tapBeat(study, time);
    const Beats beat = study.meters().nearestCount(study.beatMap.beatsAt(time));
    const auto& marks = study.beatMap.marks();
    if (std::any_of(marks.begin(), marks.end(), [&](const BeatMark& mark) { return mark.position == beat; }))
        return study;
    return withMap(study, study.beatMap.withMark({beat, time}));
}

Study moveMark(const Study& study, std::size_t index, Seconds time) {
    if (!isWithinLimits(time) || index >= study.beatMap.marks().size()) return study;
    return withMap(study, study.beatMap.moved(index, time));
}

Study removeMark(const Study& study, std::size_t index) {
    if (index >= study.beatMap.marks().size()) return study;
    return withMap(study, study.beatMap.removed(index));
}

} // namespace earwright
