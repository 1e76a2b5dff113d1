// The names one key of the piano can have.
#pragma once

#include "core/music/Pitch.h"

#include <optional>
#include <string_view>
#include <vector>

namespace earwright {

/// All names of a pitch with at most a double accidental, the simplest first and sharps before flats: for 61
/// C♯, D♭, B𝄪. Any MIDI number.
std::vector<PitchName> namesOf(int midi);

/// The pitch on a letter counted from C, beyond the octave too and down to −70; nothing where that takes more
/// than a double accidental. Any MIDI number.
std::optional<PitchName> nameOn(int letter, int midi);

/// A letter of either case with at most so many of #, ♯, b and ♭ behind it, taken off the front of the text;
/// nothing is taken where there is no letter.
std::optional<PitchName> takeName(std::string_view& text, int mostSigns);

/// E♯, B♯, C♭, F♭ and double accidentals on a white key.
bool isWhiteWithAccidental(const PitchName& name);

/// The name itself, or in the place of a double accidental the same key with a single one of the same
/// direction, or none where it has a letter of its own.
PitchName withoutDoubles(const PitchName& name);

} // namespace earwright
