// How a note of a MusicXML file is played.
#pragma once

#include "core/music/KeySignature.h"
#include "core/music/Note.h"

#include <pugixml.hpp>

namespace earwright {

/// A note and what its ornaments are read by.
struct MusicXmlReadNote {
    pugi::xml_node note;
    /// As it is read, not as it sounds.
    int midi = 60;
    KeySignature key;
};

/// From the notations and the notehead of a note; slurs and grace notes, which lie between notes, aside. A
/// trill goes to the note that its accidental names, else as far as its step says, else to the next note of
/// the key.
Phrasing musicXmlPhrasing(const MusicXmlReadNote& read);

/// Under a slur that began before: slurred, or picked where the note says so by a stroke or a word.
void putUnderSlur(Phrasing& phrasing, pugi::xml_node note);

/// Of a note of a chord: what the first one has as well, unless the note says that it has signs of its own. A
/// trill over the chord takes each of its notes as far as its step says, else to the next note of the key;
/// its accidental names the first one's upper note.
void takeMarksOfChord(Phrasing& phrasing, const MusicXmlReadNote& read, Phrasing first,
                      pugi::xml_node firstNote);

/// Adds what a tied-on piece says of the note's end.
void addEndOf(Phrasing& phrasing, const Phrasing& later);

} // namespace earwright
