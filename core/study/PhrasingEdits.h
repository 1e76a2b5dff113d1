// How a note is played: marks of phrasing set, stepped through by key, and given another value.
#pragma once

#include "core/music/PhrasingKind.h"
#include "core/study/Study.h"

#include <vector>

namespace earwright {

/// The note played as told. Grace notes outside the pitches a line can have, trills outside 1 to 4 semitones,
/// bends outside 1 to 8 quarter tones and what contradicts itself (Note.h) are left out. An id that is not
/// there changes nothing.
Study setPhrasing(const Study& study, NoteId id, const Phrasing& phrasing);

/// Puts a mark on the note or takes it away, and takes away what it excludes: a ghosted note is not accented,
/// a slurred one not picked in a slur, a staccato one does not ring, one that falls does not slide on.
Study toggleMark(const Study& study, NoteId id, bool Phrasing::*mark);

/// One step on for a key pressed again and again, on one note or several: from none to what players mean most
/// often, through other settings, and back to none. Slides: in from below, from above, out up, out down.
/// Bends: a whole tone, a semitone and a quarter tone up, a whole tone up and down, bent before and let down.
/// Grace: a semitone below, above. Trill: to the next note of the key, then to the other of semitone and
/// whole tone. Turn: from the upper neighbour, the lower. Mordent: with the lower, the upper. HammerPull: by
/// the direction the line comes from, then the other; both slur. A value set otherwise leads to none; all
/// others are there or not.
///
/// Of several notes the first without the mark says what all of them get, each as it fits its place; so some
/// marked and some not become all marked. Ids that are not there are passed over.
Study stepMark(const Study& study, const std::vector<NoteId>& notes, PhrasingKind kind);

/// The mark's value one step higher (+1) or lower (−1), where the note has the mark: a slide from or to the
/// other side, a bend deeper, a trill wider, its first grace note a semitone up, the other neighbour of a
/// turn or mordent, hammered on (up) or pulled off. At its limit it stays.
Study stepValue(const Study& study, const std::vector<NoteId>& notes, PhrasingKind kind, int by);

/// One grace note more, played before those that are there: a step of the key further away from the note; the
/// first one a semitone below. A note has at most four.
Study addGraceNote(const Study& study, const std::vector<NoteId>& notes);
inline constexpr std::size_t mostGraceNotes = 4;

} // namespace earwright
