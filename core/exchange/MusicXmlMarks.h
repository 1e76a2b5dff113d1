// The signs a note of a MusicXML page has of its own.
#pragma once

#include "core/engraving/PageBars.h"
#include "core/music/Note.h"

#include <pugixml.hpp>

namespace earwright {

/// Appends `<name type="type"/>`.
void addMark(pugi::xml_node parent, const char* name, const char* type);

/// Ornaments, articulations, bends and let-ring ties, each at the piece of the note where it belongs: signs
/// of the beginning at the first, of the end at the last. A slide in from below is a scoop and one out
/// downwards a falloff, as MusicXML 4.0 has no other words for them. Threads: any.
void addPhrasing(pugi::xml_node notations, const PagePiece& piece, const Phrasing& phrasing);

} // namespace earwright
