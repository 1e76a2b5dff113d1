// Stems and flags of notes that hang on no beam, and those of grace notes.
#pragma once

#include "core/engraving/LaidPiece.h"
#include "core/engraving/Sketch.h"

namespace earwright {

/// A stem from its head to `endY`.
LaidStem stemTo(const LaidPiece& laid, double endY, const FontMetrics& font);
void drawStem(const LaidPiece& laid, Sketch& sketch);

/// Stems are an octave (3.5 spaces) long, longer for more than two flags, and reach at least the middle line
/// (common practice; Gould, "Behind Bars", from memory). Sets `stem` of the pieces it draws.
void layOutSingleStems(LaidLine& line, Sketch& sketch);

/// A single grace note is an eighth with a stroke through its flag, several hang on two beams; stems up
/// (common practice). A small slur leads to the note.
void layOutGraceStems(const LaidLine& line, Sketch& sketch);

} // namespace earwright
