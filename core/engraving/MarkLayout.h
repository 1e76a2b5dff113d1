// Articulations and ornaments over and under the notes.
#pragma once

#include "core/engraving/LaidPiece.h"
#include "core/engraving/Sketch.h"

namespace earwright {

/// Accents, on the side of the head and outside the staff (Gould, "Behind Bars", from memory). Before slurs.
void layOutArticulations(const LaidLine& line, Sketch& sketch);

/// Trills with their wavy line up to the end of the note, over everything else of the note. After slurs.
/// `right` is where a line that goes on in the next system ends.
void layOutOrnaments(const LaidLine& line, double right, Sketch& sketch);

} // namespace earwright
