// Marking bars and beats by ear, and correcting the marks and the count of bars afterwards.
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

/// A mark more, on the whole beat nearest to the time and at that time. Nothing changes where that beat is
/// marked already. Without a tempo it is a tapped beat.
Study insertMark(const Study& study, Seconds time);
/// A mark dragged; it stops short of its neighbours. An index that is not there changes nothing.
Study moveMark(const Study& study, std::size_t index, Seconds time);
/// An index that is not there changes nothing.
Study removeMark(const Study& study, std::size_t index);

/// Bar 1 starts on the whole beat nearest to the time. Notes, divisions and overridden bars are counted anew,
/// so that all of them stay with the sound. Nothing changes without a tempo.
Study startBarOneAt(const Study& study, Seconds time);

/// Another time signature: 1 to 32 beats a bar, the beat a whole note to a 32nd; others change nothing.
///
/// Where only bar lines are marked, they stay the bar lines they were tapped as: what lies between them is
/// stretched to the new count, so that it stays with the sound, and divisions start anew. Where single beats
/// are marked, beats stay and bars are counted anew. Chords are spread again over their bars.
Study setMeter(const Study& study, const Meter& meter);

} // namespace earwright
