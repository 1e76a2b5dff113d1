#include "ui/grid/ChordRows.h"

#include "core/music/Pitch.h"
#include "core/theory/ChordDegree.h"

#include <cstdlib>

namespace earwright::ui {

namespace {

std::vector<bool> tonesOf(const std::optional<ChordSymbol>& symbol) {
    if (!symbol || !symbol->chord) return {};
    std::vector<bool> tones;
    for (int pitchClass = 0; pitchClass < 12; ++pitchClass)
        tones.push_back(degreeOf(pitchClass, *symbol->chord).isChordTone);
    return tones;
}

/// The octave's number as the letter counts it: C flat just under C4 is C♭4.
QString octaveText(const PitchName& name, int midi) {
    const QString letters = QString::fromStdString(toString(name));
    return QString::fromStdString(toString(name, midi)).mid(letters.size());
}

} // namespace

ChordRows::ChordRows(const Study& study, const Range<Beats>& range) {
    if (range.isEmpty()) return;
    const auto begin = [&](const Beats& place, const std::optional<ChordSymbol>& symbol, bool beginsHere) {
        if (!list.empty()) list.back().range.end = place;
        if (!list.empty() && list.back().range.isEmpty()) list.pop_back();
        list.push_back({{place, range.end}, symbol, beginsHere, tonesOf(symbol)});
    };
    begin(range.begin, study.chordAt(range.begin), false);
    const MeterMap meters = study.meters();
    const std::int64_t lastBar = meters.barOf(range.end);
    for (std::int64_t bar = meters.barOf(range.begin); bar <= lastBar; ++bar)
        for (const PlacedChord& placed : study.barChords(bar).chords) {
            const Beats place = meters.barStart(bar) + placed.withinBar;
            if (range.contains(place)) begin(place, placed.symbol, true);
        }
}

const ChordStretch* ChordRows::at(const Beats& place) const {
    if (list.empty()) return nullptr;
    for (const ChordStretch& stretch : list)
        if (place < stretch.range.end) return &stretch;
    return &list.back();
}

RowName rowName(const ChordStretch* chord, int midi) {
    if (!chord || !chord->canBeRead()) return rowName(chord, midi, plainName(midi));
    const PitchName name = degreeOf(midi, *chord->symbol->chord).name;
    // A double accidental is right on paper and slow to read beside a row: A, not B♭♭.
    return rowName(chord, midi, std::abs(name.alter) > 1 ? plainName(midi) : name);
}

RowName rowName(const ChordStretch* chord, int midi, const PitchName& name) {
    return {degreeText(chord, midi), QString::fromStdString(toString(name)), octaveText(name, midi)};
}

QString degreeText(const ChordStretch* chord, int midi) {
    if (!chord || !chord->canBeRead()) return {};
    return QString::fromStdString(degreeOf(midi, *chord->symbol->chord).label);
}

} // namespace earwright::ui
