// What each row of the note grid is on the chord over it.
#pragma once

#include "core/music/ChordSymbol.h"
#include "core/study/Study.h"
#include "core/time/Beats.h"
#include "core/time/Range.h"

#include <QString>

#include <optional>
#include <vector>

namespace earwright::ui {

/// A chord and how long it lasts.
struct ChordStretch {
    Range<Beats> range;
    /// Nothing where no chord is written.
    std::optional<ChordSymbol> symbol;
    /// False where the chord began before the bars shown.
    bool beginsHere = true;
    /// Which pitch classes, from C, are tones of the chord; none where it cannot be read.
    std::vector<bool> tones;

    bool isTone(int midi) const {
        return !tones.empty() && tones[static_cast<std::size_t>(pitchClassOf(midi))];
    }
    bool canBeRead() const { return symbol && symbol->chord; }
};

/// "3", "D" and "5": a row's label in its parts; the degree is empty without a chord.
struct RowName {
    QString degree;
    QString name;
    QString octave;
};

/// The chords over the bars shown, in order and without gaps.
/// Threads: a value.
class ChordRows {
public:
    ChordRows() = default;
    ChordRows(const Study& study, const Range<Beats>& range);

    const std::vector<ChordStretch>& stretches() const { return list; }
    /// The chord at a place, the first or last one for places outside; null only if there is no bar at all.
    const ChordStretch* at(const Beats& place) const;

private:
    std::vector<ChordStretch> list;
};

/// What a pitch is called on a chord, and without one; never by a double accidental.
RowName rowName(const ChordStretch* chord, int midi);
/// What a note there is called that has this name. Requires: name fits midi.
RowName rowName(const ChordStretch* chord, int midi, const PitchName& name);
/// What a pitch is on its chord: "♭9"; empty without one.
QString degreeText(const ChordStretch* chord, int midi);

} // namespace earwright::ui
