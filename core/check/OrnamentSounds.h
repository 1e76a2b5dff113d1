// What the signs of a written note make heard besides its own pitch: none of that is a note left out.
#pragma once

#include "core/check/PhraseCheck.h"
#include "core/music/Note.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <vector>

namespace earwright {

/// The pitch a note begins with: a string that is pulled up before it is struck sounds higher than it is
/// fingered.
int struckMidi(const Note& note);

/// Whether its signs let a note begin with another pitch than its own, or leave it and come back.
bool movesItsPitch(const Phrasing& signs);

/// Whether a written ornament is what sounds there. `played`: the note's time in the recording.
bool isOrnament(const UnwrittenSound& sound, const Note& note, const Range<Seconds>& played);

/// Semitones; wider turns are two notes.
inline constexpr int widestTrill = 4;

/// Whether it may be what a trill goes to, where that is another note than the one written: each time round
/// is heard, and all of them are one mistake.
bool isOtherTrill(const UnwrittenSound& sound, const Note& note, const Range<Seconds>& played);

/// The answer for a note with the pitches of its own signs taken for no other note. A turn begins with its
/// neighbour, and so may a trill; a slide and a grace note begin with what leads into their note, which is
/// then borne out where its own pitch is more likely than not; and a bend that begins elsewhere has reached
/// its height where it is written. A contradicted note is answered otherwise only where its own pitch is
/// among the sounds with no note.
CheckedNote withSignsHeard(CheckedNote checked, const Note& note,
                           const std::vector<UnwrittenSound>& unwritten);

/// From where a note was found to begin to where it is written to end; one that is moved together with others
/// lasts as long there.
Range<Seconds> playedRange(const CheckedNote& checked);

} // namespace earwright
