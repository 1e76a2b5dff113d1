// Whether a slur can be played on the strings that its notes are played on.
#pragma once

#include "core/engraving/PageLine.h"
#include "core/engraving/TabPlace.h"

#include <map>

namespace earwright {

/// Whether a note is on another string than all notes before it, as after a leap that no string can hold: no
/// finger can hammer it on or pull it off (common practice). False where nothing tells. Threads: any.
bool leavesString(const PageNotes& before, const Note& note, const std::map<NoteId, TabPlace>& places);

/// Whether some note of the second stands under a slur that stays on its string. Threads: any.
bool isSlurredOnString(const PageNotes& before, const PageNotes& together,
                       const std::map<NoteId, TabPlace>& places);

} // namespace earwright
