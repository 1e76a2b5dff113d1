// The tablature under the staff.
#pragma once

#include "core/engraving/FretReach.h"
#include "core/engraving/LaidPiece.h"
#include "core/engraving/Sketch.h"
#include "core/engraving/SystemPlan.h"
#include "core/engraving/TabFrame.h"

#include <vector>

namespace earwright {

/// Half a space before the music begins, where it ends at the last bar line, and where the lines end behind
/// that.
struct TabEnds {
    double start = 0;
    double barLine = 0;
    double lines = 0;
};

/// Lines with gaps for their numbers, clef, frets, grace frets, the upper fret of a trill in parentheses,
/// slides, scoops, falls, bends and the arcs of slurs, H or P over them where the hand is said (common
/// practice), its top line at y = 0. Under a staff articulations and ornaments stand over the lines too;
/// else over the rhythm. Tied notes are not repeated (common practice). Adds the boxes of its numbers to
/// `notes`. Requires: `bars` are those of the line, as laid.
void layOutTab(const SystemPlan& plan, const LaidLine& line, const std::vector<PlacedBar>& bars,
               const TabEnds& ends, Sketch& sketch, std::vector<NoteBox>& notes);

} // namespace earwright
