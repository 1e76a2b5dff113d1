// How a note of a study file is played, read.
#pragma once

#include "core/music/Note.h"
#include "core/study/StrictJson.h"

#include <cstdint>

namespace earwright {

/// Reports members of a note that files of this version cannot have.
void expectNoteMembers(const StrictJson& note, std::int64_t version);

/// The members of a note that say how it is played. Problems go to the FirstProblem of `note`.
Phrasing readPhrasing(const StrictJson& note);

} // namespace earwright
