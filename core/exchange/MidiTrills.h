// Trills that a MIDI file has note by note.
#pragma once

#include "core/exchange/Imported.h"

#include <vector>

namespace earwright {

/// Two pitches up to a major third apart that take turns, four times or more, each no longer than a
/// thirty-second and than trills are played, are one note with a trill: the lower one, for a trill goes up.
/// Among other notes as short, other than those of trills that no run follows and up to three that lead to a
/// longer note, they are so only from six on; fewer are a run that turns back.
///
/// Frame: meter and marks of the piece. Notes in the order of their onsets, which are where they were
/// written. Requires: frame.beatMap.hasTempo(). Threads: any.
std::vector<ForeignNote> withTrills(const Study& frame, std::vector<ForeignNote> notes);

} // namespace earwright
