// One note, double stop or rest with all that stands beside its heads, before it has a place on the line.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/FontMetrics.h"
#include "core/engraving/StaffBar.h"

#include <vector>

namespace earwright {

/// How far the curve of a bend rises from the middle of its head.
inline constexpr double bendRise = 1.3;

/// Half spaces above the middle line, as y under the top line.
inline double yOfPosition(int position) {
    return 2 - position / 2.0;
}

/// The head's glyph for a drawn value.
Smufl headGlyph(int denominator);
Smufl restGlyph(int denominator);
Smufl accidentalGlyph(int alter);
/// The flag of a single note. Requires: denominator ≥ 8.
Smufl flagGlyph(int denominator, bool stemUp);

/// Shapes about x = 0, the left edge of the heads on their usual side of the stem; y as on the staff.
struct PieceShape {
    PlacedShapes shapes;
    std::vector<NoteBox> notes;
    /// How far everything reaches to the left of 0 (a positive number) and to the right.
    double left = 0;
    double right = 0;
    double headWidth = 0;
    /// Where a tie comes to and goes from: the outer edges of all heads, those beside their usual side of the
    /// stem and parentheses included.
    double headsLeft = 0;
    double headsRight = 0;
    /// Where the stem touches: its left edge. The same for grace notes, from first to last.
    double stemX = 0;
    /// Heads of grace notes, left edges, with their y; for the beam and slur over them.
    std::vector<PagePoint> graceHeads;
};

/// Heads, accidentals, dots, ledger lines, parentheses, the flag's room, grace notes and the strokes of
/// slides from or to nowhere, scoops, falls and the curves of bends. A rest of a whole bar is empty: it
/// belongs to the bar's middle.
PieceShape pieceShape(const StaffPiece& piece, const FontMetrics& font);

} // namespace earwright
