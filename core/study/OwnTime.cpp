#include "core/study/OwnTime.h"

#include "core/study/Limits.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr Seconds afterLast{2};

double tempoOf(const Study& study) {
    for (const TempoMark& mark : study.page.tempos)
        if (mark.quartersPerMinute) return *mark.quartersPerMinute;
    return usualQuartersPerMinute;
}

Beats endOf(const Study& study) {
    Beats end = study.notes.front().end();
    for (const Note& note : study.notes)
        end = std::max(end, note.end());
    return end;
}

BeatMap evenMarks(const Study& study) {
    const MeterMap meters = study.meters();
    const Beats end = std::max(Beats(meters.barStart(meters.barOf(endOf(study)) + 1)), meters.barStart(2));
    const double beat = 60 / tempoOf(study) * 4 / study.meter.beatUnit;
    BeatMap marks({{Beats(0), Seconds(0)}, {end, Seconds(beat * end.toDouble())}});
    if (isWithinLimits(marks)) return marks;
    // A line without end: the tempo is even anyway.
    const Beats second = meters.barStart(2);
    return BeatMap({{Beats(0), Seconds(0)}, {second, Seconds(beat * second.toDouble())}});
}

void shift(Study& study, Seconds by) {
    std::vector<BeatMark> marks = study.beatMap.marks();
    for (BeatMark& mark : marks)
        mark.time = mark.time + by;
    study.beatMap = BeatMap(std::move(marks));
    for (Span& span : study.spans)
        span.range = span.range.shifted(by);
    for (LooseEnd& end : study.looseEnds)
        end.time = end.time + by;
    for (Take& take : study.takes)
        take.at = take.at + by;
    if (study.practice.loop) study.practice.loop = study.practice.loop->shifted(by);
    for (PhraseRecord& phrase : study.earRecord.phrases) {
        for (EarPlace& place : phrase.places)
            place.time = place.time + by;
        for (FoundNote& found : phrase.found)
            found.time = found.time + by;
    }
}

} // namespace

Study withOwnTime(const Study& given) {
    if (given.notes.empty()) return given;
    Study study = given;
    if (!study.beatMap.hasTempo()) study.beatMap = evenMarks(study);
    const MeterMap meters = study.meters();
    const Seconds first = study.beatMap.seconds(meters.barStart(meters.barOf(study.notes.front().onset)));
    if (first < Seconds(0)) shift(study, Seconds(0) - first);
    const Frames length = study.recording.rate.frames(study.beatMap.seconds(endOf(study)) + afterLast);
    study.recording.length = std::max(study.recording.length, length);
    return study;
}

} // namespace earwright
