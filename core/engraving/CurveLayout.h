// Ties and slurs.
#pragma once

#include "core/engraving/LaidPiece.h"
#include "core/engraving/Sketch.h"

namespace earwright {

/// A tie from head to head, on the side away from the stem; of a double stop the upper ones bow upwards,
/// clear of bends. What is tied over the line's end goes to `right`; what comes from the line before starts
/// shortly before its head.
void layOutTies(const LaidLine& line, double right, Sketch& sketch);

/// One slur over all notes that are slurred to one another, under them where all stems point up, else over
/// them. It clears what lies between its ends. `slurred` tells of events of the whole line, so that a slur
/// goes on over the line's ends, to `left` or `right`.
void layOutSlurs(const LaidLine& line, const std::vector<bool>& slurred, double left, double right,
                 Sketch& sketch);

} // namespace earwright
