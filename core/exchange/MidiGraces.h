// Grace notes that a MIDI file has as notes of their own.
#pragma once

#include "core/exchange/Imported.h"
#include "core/exchange/ToldSwing.h"

#include <optional>
#include <vector>

namespace earwright {

/// Takes one to three notes that last no longer than a thirty-second, nor than anyone would count, as grace
/// notes of a longer one near in pitch that follows at once: programs play them on the beat, in the time of
/// their note, which begins where they do then, or before it, in the time of the note before, which goes on
/// to it then. What begins on a sixteenth, a triplet or a thirty-second of its own and leads to a stronger
/// place is a rhythm and stays.
///
/// Frame: meter and marks of the piece. Notes in the order of their onsets, which are where they were
/// written, or where the swing that is told has them. Requires: frame.beatMap.hasTempo(). Threads: any.
std::vector<ForeignNote> withGraceNotes(const Study& frame, std::vector<ForeignNote> notes,
                                        const std::optional<ToldSwing>& told = {});

} // namespace earwright
