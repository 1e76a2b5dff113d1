// The written notes as the engine needs them: in frames, with phrasing turned into loudness and glides.
#pragma once

#include "core/engine/TimedNote.h"
#include "core/study/Study.h"

#include <vector>

namespace earwright {

/// By onset. Empty until bars are marked, or while the recording's rate is not known.
std::vector<TimedNote> timedNotes(const Study& study);

} // namespace earwright
