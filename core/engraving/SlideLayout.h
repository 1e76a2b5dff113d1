// Slides from a note to the next one, on the staff.
#pragma once

#include "core/engraving/LaidPiece.h"
#include "core/engraving/Sketch.h"

#include <vector>

namespace earwright {

/// The least length of such a stroke, which the columns leave room for.
inline constexpr double leastSlide = 1.3;

/// The piece that piece `index` slides on to: the next one where it is a note; none where a rest comes
/// between, the note is tied on, or it does not slide. Threads: any.
const LaidPiece* slideGoal(const LaidLine& line, std::size_t index);

/// The head that the one of a voice, from the lowest, slides to (otherVoice).
const StaffHead& slideGoalOf(std::size_t voice, const LaidPiece& goal);

/// Strokes from head to head. One that would run through a change of key or meter or the dots of a repeat
/// ends before the bar line there, on its way: `stops` are those places, rising. What slides over the line's
/// end goes to `right`, up or down; what slides to no note is not drawn.
void layOutSlides(const LaidLine& line, const std::vector<double>& stops, double right, Sketch& sketch);

} // namespace earwright
