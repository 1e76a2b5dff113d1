#include "core/study/ChartEdits.h"

namespace earwright {

namespace {

/// What stands over a bar, its places in beats of the bar's own meter.
BarChords inOwnBeats(const Study& study, std::int64_t bar) {
    BarChords chords = study.barChords(bar);
    const MeterMap meters = study.meters();
    for (PlacedChord& chord : chords.chords)
        chord.withinBar = meters.inOwnBeats(chord.withinBar, bar);
    return chords;
}

} // namespace

Study setForm(const Study& study, std::string_view text) {
    Study edited = study;
    edited.chart.form = parseBars(text, study.meter);
    return edited;
}

Study overrideBars(const Study& study, std::int64_t firstBar, std::string_view text) {
    const MeterMap meters = study.meters();
    const Meter& own = meters.at(firstBar);
    // The bar before goes in front, so that a repeat sign finds it.
    const BarChords before = spreadAgain(inOwnBeats(study, firstBar - 1), meters.at(firstBar - 1), own);
    std::vector<BarChords> bars = parseBars(toText({before}, own) + "\n" + std::string(text), own);
    bars.erase(bars.begin());
    if (bars.empty()) bars.emplace_back();
    Study edited = study;
    for (std::int64_t bar = firstBar; const BarChords& typed : bars) {
        const Meter& meter = meters.at(bar);
        BarChords& chords = edited.chart.overrides[bar++];
        chords = meter == own ? typed : spreadAgain(typed, own, meter);
        for (PlacedChord& chord : chords.chords)
            chord.withinBar = chord.withinBar * study.meter.beatUnit / meter.beatUnit;
    }
    return edited;
}

std::string chordText(const Study& study, std::int64_t bar) {
    return toText({inOwnBeats(study, bar)}, study.meters().at(bar));
}

Study clearOverride(const Study& study, std::int64_t bar) {
    Study edited = study;
    edited.chart.overrides.erase(bar);
    return edited;
}

} // namespace earwright
