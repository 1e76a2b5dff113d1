// Chords over bars: a form typed once, laid over every chorus, and changed where a chorus differs.
#pragma once

#include "core/music/ChordSymbol.h"
#include "core/music/MeterMap.h"
#include "core/time/Beats.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace earwright {

/// A chord and the beat of its bar on which it starts.
struct PlacedChord {
    Beats withinBar;
    ChordSymbol symbol;
    friend bool operator==(const PlacedChord&, const PlacedChord&) = default;
};

/// The chords of one bar, in order; empty means nothing is written and the chord before goes on.
struct BarChords {
    std::vector<PlacedChord> chords;
    friend bool operator==(const BarChords&, const BarChords&) = default;
};

/// Reads `Bb7 | Eb7 | Bb7 | Fm7 Bb7`: bars between strokes (or line breaks), chords spread evenly over the
/// beats of a bar (two in 4/4 take two beats each, common practice), `%` repeats the bar before, an empty
/// bar stays empty. Never fails; unreadable symbols are kept as typed.
///
/// Three in 4/4 come on beats 1, 3 and 4: what is left over goes to the first ones. A `/` takes a chord's
/// place and lets the one before go on: `Bb7 / / F7` changes on beat 4. Strokes at the ends of a line and
/// doubled ones make no bar of their own; an empty bar has a space between its strokes.
/// Of more than 256 words in one bar the rest is left out.
std::vector<BarChords> parseBars(std::string_view text, const Meter& meter);
/// The text that parseBars reads back to the same bars under the same meter, as the user typed the symbols.
/// Requires: places within bars lie in [0, the bar's length).
std::string toText(const std::vector<BarChords>& bars, const Meter& meter = {});

/// The bar's chords as they would stand had they been typed under the other meter; places in beats of each.
BarChords spreadAgain(const BarChords& bar, const Meter& from, const Meter& to);

/// A run of bars that repeats: where it starts in the study and how long it is.
struct ChorusBars {
    std::int64_t firstBar = 1;
    std::int64_t barCount = 12;
    friend bool operator==(const ChorusBars&, const ChorusBars&) = default;
};

/// The form, typed under the first meter, and what single bars have instead. Places within bars are counted
/// in beats of the first meter, in the form within a bar of it.
struct ChordChart {
    std::vector<BarChords> form;
    /// By bar number; wins over the form.
    std::map<std::int64_t, BarChords> overrides;

    friend bool operator==(const ChordChart&, const ChordChart&) = default;

    /// What stands over a bar, given where the choruses lie; nothing outside choruses unless overridden. A
    /// form shorter than a chorus starts over in it. Where a bar has another meter than the first, the form's
    /// chords are spread over it anew.
    BarChords barChords(std::int64_t bar, const MeterMap& meters,
                        const std::vector<ChorusBars>& choruses) const;
    /// The chord sounding at a place: the last one at or before it, looking back over empty bars to the
    /// chorus's first (outside choruses, to where the last one ended).
    std::optional<ChordSymbol> chordAt(const Beats& place, const MeterMap& meters,
                                       const std::vector<ChorusBars>& choruses) const;
};

} // namespace earwright
