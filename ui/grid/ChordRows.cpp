#include "ui/grid/ChordRows.h"

#include "core/music/Pitch.h"

namespace earwright::ui {

namespace {

std::vector<bool> tonesOf(const std::optional<ChordSymbol>& symbol) {
    if (!symbol || !symbol->chord) return {};
    std::vector<bool> tones(12, false);
    const int root = symbol->chord->root.pitchClass();
    for (const int interval : symbol->chord->intervals())
        tones[static_cast<std::size_t>(pitchClassOf(root + interval))] = true;
    return tones;
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
    const std::int64_t lastBar = study.meter.barOf(range.end);
    for (std::int64_t bar = study.meter.barOf(range.begin); bar <= lastBar; ++bar)
        for (const PlacedChord& placed : study.barChords(bar).chords) {
            const Beats place = study.meter.barStart(bar) + placed.withinBar;
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
    const Pitch pitch{midi, {}};
    const PitchName name = plainName(midi);
    const QString full = QString::fromStdString(toString(name, midi));
    const QString letter = QString::fromStdString(toString(name));
    return {degreeText(chord, pitch), letter, full.mid(letter.size())};
}

QString degreeText(const ChordStretch* chord, const Pitch& pitch) {
    if (!chord || !chord->canBeRead()) return {};
    static const char* names[12] = {"1", "♭9", "9", "♭3", "3", "11", "♭5", "5", "♭13", "13", "♭7", "7"};
    return QString::fromUtf8(names[pitchClassOf(pitch.midi - chord->symbol->chord->root.pitchClass())]);
}

} // namespace earwright::ui
