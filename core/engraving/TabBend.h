// A bent string in the tablature.
#pragma once

#include "core/engraving/Sketch.h"
#include "core/music/Bend.h"
#include "core/music/Note.h"

#include <string>

namespace earwright {

/// The string is pulled before it is struck.
bool isPrebent(const Bend& bend);

/// How far the string is pulled, as players say it (common practice of tablature): "½", "full" for a whole
/// tone, "1½".
std::string bendAmount(const Bend& bend);

/// How far the arrows, with the amount over them, reach to the right of where they begin.
double bendWidth(const Bend& bend);

/// Arrows that begin beside a number, at `from`: up to over the lines of the tablature (its top line is y =
/// 0) with the amount over them, and down again where the string is let down. The arrow of a string that is
/// pulled before it is struck goes straight up.
void drawTabBend(const Bend& bend, const PagePoint& from, NoteId note, Sketch& tab);

} // namespace earwright
