// How a note of a MusicXML file is played.
#pragma once

#include "core/music/Note.h"

#include <pugixml.hpp>

namespace earwright {

/// From the notations and the notehead of a note; slurs and grace notes, which lie between notes, aside.
Phrasing musicXmlPhrasing(pugi::xml_node note);

/// Adds what a tied-on piece says of the note's end.
void addEndOf(Phrasing& phrasing, const Phrasing& later);

} // namespace earwright
