#include "core/study/Recounting.h"

#include "core/study/PageEdits.h"

namespace earwright {

namespace {

/// A bar's chords, in beats of the first meter before, as they stand under its meter afterwards.
BarChords spreadOver(BarChords chords, const Meter& from, int unitBefore, const Meter& to, int unitAfter) {
    for (PlacedChord& chord : chords.chords)
        chord.withinBar = chord.withinBar * from.beatUnit / unitBefore;
    chords = spreadAgain(chords, from, to);
    for (PlacedChord& chord : chords.chords)
        chord.withinBar = chord.withinBar * unitAfter / to.beatUnit;
    return chords;
}

void spreadChords(Study& edited, const Study& before, const Recounting& recounting) {
    const MeterMap then = before.meters();
    const MeterMap now = edited.meters();
    for (BarChords& chords : edited.chart.form)
        chords = spreadAgain(chords, before.meter, edited.meter);
    edited.chart.overrides.clear();
    for (const auto& [bar, chords] : before.chart.overrides) {
        const std::int64_t moved = recounting.newBar(bar);
        const Meter& from = then.at(bar);
        const Meter& to = now.at(moved);
        edited.chart.overrides[moved] =
            from == to && before.meter.beatUnit == edited.meter.beatUnit
                ? chords
                : spreadOver(chords, from, before.meter.beatUnit, to, edited.meter.beatUnit);
    }
}

void moveDivisions(Study& edited, const Study& before, const Recounting& recounting) {
    const MeterMap then = before.meters();
    const MeterMap now = edited.meters();
    edited.divisions.clear();
    for (const auto& [beat, division] : before.divisions) {
        const Beats place = recounting.newPlace(beat);
        // As long as it was: a beat that lasts another part of its bar is another beat.
        const Beats end = recounting.newPlace(then.nextCount(beat));
        if (now.countStart(place) == place && now.nextCount(place) == end) edited.divisions[place] = division;
    }
}

} // namespace

Study recounted(const Study& study, const Recounting& recounting) {
    Study edited = study;
    edited.meter = recounting.first;
    std::vector<BeatMark> marks = study.beatMap.marks();
    for (BeatMark& mark : marks)
        mark.position = recounting.newPlace(mark.position);
    edited.beatMap = BeatMap(std::move(marks));
    for (Note& note : edited.notes) {
        const Beats end = recounting.newPlace(note.end());
        note.onset = recounting.newPlace(note.onset);
        note.length = end - note.onset;
    }
    edited.page = recountedPage(study.page, recounting);
    spreadChords(edited, study, recounting);
    moveDivisions(edited, study, recounting);
    return edited;
}

std::vector<MeterChange> continued(const Meter& first, std::vector<MeterChange> changes,
                                   const std::vector<std::pair<Beats, Meter>>& later) {
    for (const auto& [place, meter] : later) {
        const MeterMap soFar(first, changes);
        const std::int64_t bar = soFar.nearestBar(place.toDouble());
        const std::int64_t last = changes.empty() ? 1 : changes.back().bar;
        if (bar > last && soFar.at(bar) != meter) changes.push_back({bar, meter});
    }
    return changes;
}

} // namespace earwright
