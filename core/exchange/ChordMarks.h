// Signs that a MusicXML page has once for all notes of a double stop.
#pragma once

#include "core/music/Note.h"

namespace earwright {

/// Accent, staccato and tenuto, turn, mordent, vibrato, and a trill by as many semitones, or of each note to
/// the next one of the key, stand over a chord as a whole: the first note of it has them. (What slides, falls
/// and bends is "attached to a single note" in MusicXML 4.0, and stands there.) A ghosted note has no accent,
/// whatever its chord has.

/// Whether what the first note of a chord has holds for the other as well.
bool sharesMarks(const Phrasing& first, const Phrasing& other);

/// The other note's phrasing without what the first one has. Requires: sharesMarks().
Phrasing withoutShared(const Phrasing& first, Phrasing other);

/// The other note's phrasing with what the first one has.
Phrasing withShared(const Phrasing& first, Phrasing other);

} // namespace earwright
