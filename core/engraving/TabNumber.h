// A fret as it stands on its string, and the parentheses of those that are ghosted.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/LaidPiece.h"
#include "core/engraving/TabPlace.h"

#include <map>
#include <string>

namespace earwright {

/// The fret of a head; empty for notes that have no place.
std::string fretText(const StaffHead& head, const std::map<NoteId, TabPlace>& places);

/// From the middle of a head's number to its edge, in staff spaces, with the parentheses of a ghosted one; 0
/// for notes that have no place.
double halfOfNumber(const LaidPiece& laid, const StaffHead& head, const std::map<NoteId, TabPlace>& places);

/// Around the ghosted numbers of a piece, about x = 0, the first line of the tablature at y = 0. Numbers on
/// neighbouring strings have a pair in common, as heads that stand close do: two pairs would meet. Threads:
/// any.
PlacedShapes tabParentheses(const LaidPiece& laid, const std::map<NoteId, TabPlace>& places, int strings);

} // namespace earwright
