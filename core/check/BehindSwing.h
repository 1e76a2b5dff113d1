// Where the swing of a line puts the off-beat eighths that are written evenly in it.
#pragma once

#include "core/study/PlayedNote.h"
#include "core/study/Study.h"

#include <optional>
#include <vector>

namespace earwright {

/// How far behind its even place the swing of its line puts a note; what is played there is neither early nor
/// late. Nothing for other notes than off-beat eighths written evenly, where the page has a swing of its own,
/// and where the line as measured does not swing (less than 1.17 to 1) or too little was heard to tell.
/// Requires: study.beatMap.hasTempo(); notes rise by onset.
std::optional<Seconds> swungBehind(const Study& study, const std::vector<Note>& notes, const Note& note,
                                   const PlayedNotes& played);

} // namespace earwright
