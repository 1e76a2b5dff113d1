// Grace notes in a MIDI file that a hand played.
#pragma once

#include "core/exchange/Imported.h"

#include <vector>

namespace earwright {

/// Takes one or two notes that a longer one, near in pitch, follows within 60 or 55 ms each for its grace
/// notes: counted, they would cut a beat into parts that nobody means. The note before goes on to the note
/// they lead to. Three and more in a row are a figure and stay; so do notes of a double stop, which sound on
/// together.
///
/// Frame: meter and marks of the piece. Notes in the order of their onsets. Requires:
/// frame.beatMap.hasTempo(). Threads: any.
std::vector<ForeignNote> withPlayedGraces(const Study& frame, std::vector<ForeignNote> notes);

} // namespace earwright
