// A bent string in the tablature.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/Sketch.h"
#include "core/music/Bend.h"
#include "core/music/Note.h"

#include <string>
#include <vector>

namespace earwright {

/// The string is pulled before it is struck.
bool isPrebent(const Bend& bend);

/// How far the string is pulled, as players say it (common practice of tablature): "½", "full" for a whole
/// tone, "1½".
std::string bendAmount(const Bend& bend);

/// How far the arrows, with the amount over them, reach to the right of where they begin.
double bendWidth(const Bend& bend);

/// A bent string, whose arrow begins beside its number.
struct TabBent {
    Bend bend;
    PagePoint from;
    NoteId note;
};

/// Arrows of strings that are bent together, up to over the lines of the tablature (its top line is y = 0)
/// and down again where a string is let down. All point to one height; over it stand their amounts, the
/// highest string's on top, and once where all are bent as far. The arrow of a string that is pulled before
/// it is struck goes straight up. Requires: not empty.
void drawTabBends(std::vector<TabBent> together, Sketch& tab);

} // namespace earwright
