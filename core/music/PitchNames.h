// The names one key of the piano can have.
#pragma once

#include "core/music/Pitch.h"

#include <vector>

namespace earwright {

/// All names of a pitch with at most a double accidental, the simplest first and sharps before flats: for 61
/// C♯, D♭, B𝄪. Any MIDI number.
std::vector<PitchName> namesOf(int midi);

/// E♯, B♯, C♭, F♭ and double accidentals on a white key.
bool isWhiteWithAccidental(const PitchName& name);

/// The name itself, or in the place of a double accidental the same key with a single one of the same
/// direction, or none where it has a letter of its own.
PitchName withoutDoubles(const PitchName& name);

} // namespace earwright
