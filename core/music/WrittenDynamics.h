// How loud the dynamics over the line make it.
#pragma once

#include "core/music/Note.h"
#include "core/music/PageMarks.h"

namespace earwright {

/// What the loudness of a note at a place is multiplied by: 1 at mf and before any mark; each step is about
/// a fifth (common practice of notation programs: mf is a MIDI velocity of 80, f 96, ff 112). A hairpin leads
/// from the level it begins with to that of a mark at its end, or by one step where there is none; sfz is for
/// the notes at its place alone. Threads: any.
double dynamicFactor(const PageMarks& page, const Beats& place);

/// The loudness a note is written to sound with, 0 to 1: Note::soundingLoudness() at the page's dynamics.
double writtenLoudness(const PageMarks& page, const Note& note);

} // namespace earwright
