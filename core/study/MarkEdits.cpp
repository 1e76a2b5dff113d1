#include "core/study/MarkEdits.h"

#include "core/study/Limits.h"
#include "core/study/PageEdits.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr int mostBeatsPerBar = 32;
constexpr int shortestBeatUnit = 32;

bool isUsable(const Meter& meter) {
    const bool powerOfTwo = meter.beatUnit > 0 && (meter.beatUnit & (meter.beatUnit - 1)) == 0;
    return meter.beatsPerBar >= 1 && meter.beatsPerBar <= mostBeatsPerBar && powerOfTwo &&
           meter.beatUnit <= shortestBeatUnit;
}

/// The study with the map, unless that goes too far.
Study withMap(const Study& study, BeatMap map) {
    if (!isWithinLimits(map)) return study;
    Study edited = study;
    edited.beatMap = std::move(map);
    return edited;
}

/// The bar whose first beat is nearest to a place.
std::int64_t nearestBar(const Meter& meter, const Beats& place) {
    return meter.barOf(place + meter.barLength() / 2);
}

/// Overridden bars under the numbers `newBar(bar)` gives them; of two that fall together the later one stays.
template <class NewBar>
void renumberOverrides(ChordChart& chart, NewBar newBar) {
    std::map<std::int64_t, BarChords> renumbered;
    for (auto& [bar, chords] : chart.overrides)
        renumbered[newBar(bar)] = std::move(chords);
    chart.overrides = std::move(renumbered);
}

/// The bars' chords as they would be read had they been typed under the other meter.
std::vector<BarChords> spreadAgain(const std::vector<BarChords>& bars, const Meter& from, const Meter& to) {
    return parseBars(toText(bars, from), to);
}

void spreadChordsAgain(ChordChart& chart, const Meter& from, const Meter& to) {
    chart.form = spreadAgain(chart.form, from, to);
    for (auto& [bar, chords] : chart.overrides)
        chords = spreadAgain({chords}, from, to).front();
}

bool onlyBarLinesAreMarked(const Study& study) {
    return std::all_of(study.beatMap.marks().begin(), study.beatMap.marks().end(), [&](const BeatMark& mark) {
        return study.meter.withinBar(mark.position) == Beats(0);
    });
}

/// Everything placed in beats, with the beats of a bar counted `to` instead of `from`.
void stretchBeats(Study& study, int from, int to) {
    const auto stretched = [&](const Beats& beats) { return beats * to / from; };
    std::vector<BeatMark> marks = study.beatMap.marks();
    for (BeatMark& mark : marks)
        mark.position = stretched(mark.position);
    study.beatMap = BeatMap(std::move(marks));
    for (Note& note : study.notes) {
        note.onset = stretched(note.onset);
        note.length = stretched(note.length);
    }
    study.page = stretchedPage(std::move(study.page), from, to);
    study.divisions.clear();
}

} // namespace

Study tapBar(const Study& study, Seconds time) {
    if (!isWithinLimits(time)) return study;
    return withMap(study, study.beatMap.tappedBar(time, study.meter));
}

Study tapBeat(const Study& study, Seconds time) {
    if (!isWithinLimits(time)) return study;
    return withMap(study, study.beatMap.tappedBeat(time, study.meter));
}

Study insertMark(const Study& study, Seconds time) {
    if (!isWithinLimits(time)) return study;
    if (!study.beatMap.hasTempo()) return tapBeat(study, time);
    const Beats beat = Beats::nearest(study.beatMap.beatsAt(time), 1);
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

Study startBarOneAt(const Study& study, Seconds time) {
    if (!isWithinLimits(time) || !study.beatMap.hasTempo()) return study;
    const Beats shift = -Beats::nearest(study.beatMap.beatsAt(time), 1);
    const BeatMap renumbered = study.beatMap.renumbered(shift);
    if (!isWithinLimits(renumbered)) return study;
    Study edited = withMap(study, renumbered);
    for (Note& note : edited.notes)
        note.onset += shift;
    edited.page = movedPage(std::move(edited.page), shift, nearestBar(study.meter, shift) - 1);
    edited.divisions.clear();
    for (const auto& [beat, division] : study.divisions)
        edited.divisions[beat + shift.floor()] = division;
    renumberOverrides(edited.chart, [&](std::int64_t bar) {
        return nearestBar(study.meter, study.meter.barStart(bar) + shift);
    });
    return edited;
}

Study setMeter(const Study& study, const Meter& meter) {
    if (!isUsable(meter)) return study;
    Study edited = study;
    edited.meter = meter;
    if (meter.beatsPerBar == study.meter.beatsPerBar) return edited;
    if (onlyBarLinesAreMarked(study))
        stretchBeats(edited, study.meter.beatsPerBar, meter.beatsPerBar);
    else
        renumberOverrides(edited.chart,
                          [&](std::int64_t bar) { return nearestBar(meter, study.meter.barStart(bar)); });
    spreadChordsAgain(edited.chart, study.meter, meter);
    return isWithinLimits(edited.beatMap) ? edited : study;
}

} // namespace earwright
