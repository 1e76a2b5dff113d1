// Notes that a hand played, where a listener would count them.
#pragma once

#include "core/exchange/Imported.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace earwright {

/// The notes on the lines of the beat they were meant for, as far as that can be told.
struct CountedNotes {
    std::vector<ForeignNote> notes;
    /// How the whole line swings, from its pickup on, where it does; its eighths are written even.
    std::optional<SwingChange> swing;
    /// Notes of beats that hold more than can be counted; they stand where they were.
    std::size_t uncounted = 0;
};

/// Reads the notes in runs of up to some sixteen bars, parted where the line waits longest for the next
/// counted beat (of three eighths in 6/8), each with a lag and a scatter of its own (RhythmReader). Swing is
/// one of seven ratios or even, whichever makes the first runs likeliest. Notes keep pitch, loudness and
/// phrasing; every note is returned.
///
/// Frame: meters and marks of the piece; its notes are not read. Requires: frame.beatMap.hasTempo(). Threads:
/// any; takes a fraction of a millisecond a note.
CountedNotes countedByHand(const Study& frame, std::vector<ForeignNote> notes);

} // namespace earwright
