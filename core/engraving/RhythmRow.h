// How long notes last over tablature that stands without a staff.
#pragma once

#include "core/engraving/LaidPiece.h"
#include "core/engraving/Sketch.h"

namespace earwright {

/// The note, double stop or rest as one head of a row of heads at one height, stems up, where the staff would
/// stand (rhythm over tablature: common practice). What the tablature shows itself – grace notes, slides,
/// bends, slurs – is not repeated.
StaffPiece rhythmOf(const StaffPiece& piece);

/// Rests of a half and more hang from a line or lie on one, which no staff gives them here.
void drawRestLine(double left, double right, int denominator, Sketch& sketch);

} // namespace earwright
