// On what the line is played: the instrument's strings, and which of them a note is to be on.
#pragma once

#include "core/study/Study.h"

#include <optional>

namespace earwright {

/// Another instrument or tuning; one that is not playable changes nothing. Pins stay: they count where the
/// new strings have the pitch.
Study setTuning(const Study& study, const StringTuning& tuning);

/// The note pinned to a string, from 0, or left to the fingering again. An id that is not there, or a string
/// outside of eight, changes nothing.
Study pinString(const Study& study, NoteId id, const std::optional<int>& string);

} // namespace earwright
