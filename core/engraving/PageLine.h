// The written notes as one line that a page can show: nothing overlaps, and every place can be drawn.
#pragma once

#include "core/study/Study.h"
#include "core/time/Beats.h"

#include <vector>

namespace earwright {

/// What sounds together from one place to another: a note, or a double stop.
struct PageNotes {
    Beats begin;
    Beats end;
    /// Rising; each pitch once; never empty.
    std::vector<Note> notes;
};

/// Whether it is slurred from the notes before, or picked and yet under their slur.
bool isUnderSlur(const Note& note);
/// Whether any of them is.
bool isUnderSlur(const PageNotes& together);

/// The study's notes as a single line. Notes that begin together are a double stop, which lasts as long as
/// its longest note; a pitch written twice in it is taken once. What still sounds when the next note begins
/// ends there. A place that no common division of the beat reaches (1/48 of a beat, or its fifths, sevenths,
/// ninths and tenths; more than 48 parts for all notes of a beat together) is moved to the nearest 1/48.
/// Returned in order. Threads: any.
std::vector<PageNotes> pageLine(const Study& study);

/// Whether another event follows at once, without a rest: only there does a slide lead on.
bool goesOn(const std::vector<PageNotes>& line, std::size_t event);

} // namespace earwright
