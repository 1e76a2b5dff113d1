// Swing that a program has written out in thirds of a beat.
#pragma once

#include "core/exchange/Imported.h"
#include "core/music/PageMarks.h"

#include <vector>

namespace earwright {

/// Notes as one writes them, and where they swing.
struct SwungNotes {
    std::vector<ForeignNote> notes;
    /// Rising; empty where nothing swings.
    std::vector<SwingChange> swings;
};

/// Eighths that swing two to one stand in files as a note on the beat and one at two thirds of it, beat after
/// beat; on the page they are even eighths under the word (common practice), and playedBeat() puts them back.
/// Where at least eight beats are so, their notes come to the halves and quarters of the beat they are
/// written on. Triplets stay, over one beat and over two; beats that have even eighths or sixteenths end the
/// swing. Nothing changes where that would happen again and again, and in meters that do not count quarters.
///
/// Frame: meters and pickup of the piece. Notes in the order of their onsets, which are where they were
/// written. Threads: any.
SwungNotes swungNotes(const Study& frame, std::vector<ForeignNote> notes);

} // namespace earwright
