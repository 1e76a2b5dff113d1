// Where on the page the notes of a MIDI file go: where its ticks are, or where a listener would count them.
#pragma once

#include <cstdint>
#include <vector>

namespace earwright {

/// How the places of its notes are read.
enum class MidiRhythm {
    /// Whichever of the other two its notes fit. Where they fit their ticks, notes that swing in thirds of a
    /// beat, or as the file says, are written even, and trills and grace notes that are written out become
    /// signs.
    Fitting,
    /// Every note begins where its tick is: for files that a notation program wrote. Notes that all end a
    /// little early end where they were meant to (writtenLengths).
    Ticks,
    /// As the simplest notation near what a hand played (RhythmReader), with grace notes.
    ByHand
};

/// What share of onsets lies on lines of the beat where notation programs put them (its eighths, twelfths,
/// fifths and sevenths, to the tick), less what chance would put there: 1 for all of them, about 0 for notes
/// that a hand played, however fine the ticks are. 1 for fewer than five onsets, and for ticks too coarse to
/// tell. Onsets: in ticks from any beat. Requires: ticksPerQuarter > 0. Threads: any.
double shareOnLines(const std::vector<std::int64_t>& onsets, std::int64_t ticksPerQuarter);

/// What fits a file: by hand where less than half of the onsets are on lines for more than by chance.
MidiRhythm fittingRhythm(double shareOnLines);

} // namespace earwright
