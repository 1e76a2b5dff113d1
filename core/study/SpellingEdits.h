// What the user calls a note on the page.
#pragma once

#include "core/study/Study.h"

#include <optional>

namespace earwright {

/// The note called so, or as key, chord and line say. What is none of its namesOf()
/// (core/music/PitchNames.h), or an id that is not there, changes nothing.
Study setSpelling(const Study& study, NoteId id, const std::optional<PitchName>& name);

/// The note's next name: those of namesOf() in turn, then the one it has by itself again, which is given and
/// left out of the turn. An id that is not there changes nothing.
Study respell(const Study& study, NoteId id, const PitchName& byItself);

} // namespace earwright
