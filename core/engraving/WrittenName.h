// How a written note is called on the page.
#pragma once

#include "core/music/Pitch.h"
#include "core/study/Study.h"

namespace earwright {

/// The user's spelling, else the chord's, else the plain name. Threads: any.
PitchName writtenName(const Note& note, const Study& study);
/// Scientific octave of a name: C flat just under C4 has octave 4. Requires: name fits midi.
int writtenOctave(const PitchName& name, int midi);

} // namespace earwright
