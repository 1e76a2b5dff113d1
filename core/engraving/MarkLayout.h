// Articulations and ornaments over and under the notes.
#pragma once

#include "core/engraving/LaidPiece.h"
#include "core/engraving/Sketch.h"

namespace earwright {

/// Where articulations stand: by the heads, or over all of them, as tablature has no stems.
enum class MarkSide { Head, Above };

/// Staccato, tenuto and accents, on the side of the head and outside the staff (Gould, "Behind Bars", from
/// memory). Before slurs.
void layOutArticulations(const LaidLine& line, MarkSide side, Sketch& sketch);

/// Turns, mordents, the stroke of a note picked under a slur, and trills and vibrato with their wavy line up
/// to the end of the note, over everything else of the note. The upper mordent is the short wavy line, the
/// lower one has a stroke through it. After slurs.
void layOutOrnaments(const LaidLine& line, const std::vector<PlacedBar>& bars, Sketch& sketch);

/// How far bent notes are bent, over them; "prebend" where the string is pulled before it is struck. For
/// staves without tablature, which says it itself. After ornaments. `right`: where the line ends.
void layOutBendAmounts(const LaidLine& line, double right, Sketch& sketch);

} // namespace earwright
