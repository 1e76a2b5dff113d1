// The tablature under the staff.
#pragma once

#include "core/engraving/LaidPiece.h"
#include "core/engraving/Sketch.h"
#include "core/engraving/SystemPlan.h"
#include "core/engraving/TabFrame.h"

#include <string>
#include <vector>

namespace earwright {

inline constexpr double fretSize = 1.9;

/// What stands on the string of a note: its fret, in parentheses where it is ghosted; empty for notes that
/// have no place.
std::string fretText(const StaffHead& head, const std::map<NoteId, TabPlace>& places);
/// The widest fret text of a piece, with the room of its slides and grace notes on either side.
struct FretReach {
    double left = 0;
    double right = 0;
};
FretReach fretReach(const LaidPiece& laid, const std::map<NoteId, TabPlace>& places);

/// Where the last bar line stands, and where the lines end behind it.
struct TabEnds {
    double barLine = 0;
    double lines = 0;
};

/// Lines with gaps for their numbers, clef, frets, grace frets, slides, bends and the arcs of slurs, H or P
/// over them where the hand is said (common practice), its top line at y = 0. Tied notes are not
/// repeated (common practice). Adds the boxes of its numbers to `notes`.
void layOutTab(const SystemPlan& plan, const LaidLine& line, const TabEnds& ends, Sketch& sketch,
               std::vector<NoteBox>& notes);

} // namespace earwright
