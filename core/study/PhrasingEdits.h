// How a note is played: slides, grace notes, trills, slurs, ghosts and accents, set or stepped through by
// key.
#pragma once

#include "core/study/Study.h"

namespace earwright {

/// The note played as told. Grace notes outside the pitches a line can have, trills outside 1 to 4 semitones,
/// bends outside 1 to 8 quarter tones and what contradicts itself (Note.h) are left out. An id that is not
/// there changes nothing.
Study setPhrasing(const Study& study, NoteId id, const Phrasing& phrasing);

// One step each, for a key pressed again and again; the last step leads back to a plain note.
// An id that is not there changes nothing.

/// None, in from below, in from above, out upwards, out downwards, none.
Study stepSlide(const Study& study, NoteId id);
/// None, from below, from above, none; what the slide out says stays.
Study stepSlideIn(const Study& study, NoteId id);
/// None, up, down, none; what the slide in says stays.
Study stepSlideOut(const Study& study, NoteId id);
/// None, one grace note a semitone below, one a semitone above, none; any other grace notes are taken away.
Study stepGrace(const Study& study, NoteId id);
/// None, a semitone, a whole tone, none; any other trill is taken away.
Study stepTrill(const Study& study, NoteId id);

/// None, a whole tone, a semitone and a quarter tone up, a whole tone up and down, bent before and let down.
Study stepBend(const Study& study, NoteId id);
/// None, from the upper neighbour, from the lower one, none.
Study stepTurn(const Study& study, NoteId id);
/// None, with the lower neighbour, with the upper one, none.
Study stepMordent(const Study& study, NoteId id);
/// None, hammered on, pulled off, none; the first two slur the note.
Study stepSlurBy(const Study& study, NoteId id);

/// Puts a mark on the note or takes it away, and takes away what it excludes: a ghosted note is not accented,
/// a slurred one not picked in a slur, a staccato one does not ring, one that falls does not slide on.
Study toggleMark(const Study& study, NoteId id, bool Phrasing::*mark);
Study toggleSlur(const Study& study, NoteId id);
/// A ghosted note is not accented: setting the one takes the other away.
Study toggleGhost(const Study& study, NoteId id);
Study toggleAccent(const Study& study, NoteId id);

} // namespace earwright
