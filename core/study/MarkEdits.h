// Marking bars and beats by ear, and correcting the marks afterwards.
#pragma once

#include "core/study/Study.h"

#include <cstddef>

namespace earwright {

// Notes, divisions and chords keep their bars and beats when a mark moves: they follow the music. Spans and
// loose ends keep their seconds. Times and counts beyond the limits of a study
// (Limits.h) change nothing.

/// A bar line tapped where the ear is; see BeatMap::tappedBar.
Study tapBar(const Study& study, Seconds time);
/// A beat tapped where the ear is; see BeatMap::tappedBeat.
Study tapBeat(const Study& study, Seconds time);

/// A mark more, on the counted beat nearest to the time and at that time. Nothing changes where that beat is
/// marked already. Without a tempo it is a tapped beat.
Study insertMark(const Study& study, Seconds time);
/// A mark dragged; it stops short of its neighbours. An index that is not there changes nothing.
Study moveMark(const Study& study, std::size_t index, Seconds time);
/// An index that is not there changes nothing.
Study removeMark(const Study& study, std::size_t index);

} // namespace earwright
