// Numbers and brackets of tuplets.
#pragma once

#include "core/engraving/LaidPiece.h"
#include "core/engraving/Sketch.h"

namespace earwright {

/// A number beside the beam where one beam holds exactly the tuplet, else a bracket with the number in its
/// gap; on the side of the stems (common practice; Gould, "Behind Bars", from memory). Tuplets not yet begun
/// or not yet ended in the line are bracketed as far as they go.
void layOutTuplets(const LaidLine& line, Sketch& sketch);

} // namespace earwright
