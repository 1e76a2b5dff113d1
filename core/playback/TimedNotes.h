// The written notes as the engine needs them: in frames, with phrasing turned into loudness and glides.
#pragma once

#include "core/engine/TimedNote.h"
#include "core/study/PlayedNote.h"
#include "core/study/Study.h"

#include <vector>

namespace earwright {

/// By onset. Empty until bars are marked, or while the recording's rate is not known. Notes that were
/// measured sound as played: where they begin and end in the recording, and as loud; a grace note or a slide
/// before it begins so much earlier that the note itself is where it was heard. All others are as written.
std::vector<TimedNote> timedNotes(const Study& study, const PlayedNotes& played = {});

} // namespace earwright
