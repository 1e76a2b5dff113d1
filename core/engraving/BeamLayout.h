// Beams and the stems that hang on them.
#pragma once

#include "core/engraving/LaidPiece.h"
#include "core/engraving/Sketch.h"

namespace earwright {

/// How far a beam rises from its first to its last stem, in spaces (negative: it falls), for heads at these
/// heights (half spaces, those next to the beam): a quarter space for a step, half for a third, and never
/// more than one; none where the line returns to where it began or an inner note lies nearest to the beam
/// (Gould, "Behind Bars", and Ross, "The Art of Music Engraving", from memory). `width` from first to last
/// stem; narrow groups slant less.
double beamRise(const std::vector<int>& positions, bool stemUp, double width);

/// Draws beams with secondary ones and hooks as the pieces say. No stem is shorter than 3.25 spaces, longer
/// for more than two beams; beams reach the middle line, and inside the staff they sit on a line, hang from
/// it or straddle it. Sets `stem` of the pieces it draws.
void layOutBeams(LaidLine& line, Sketch& sketch);

} // namespace earwright
