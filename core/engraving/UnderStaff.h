// What stands under the staff: dynamics, hairpins, words.
#pragma once

#include "core/engraving/LaidPiece.h"
#include "core/engraving/LineMoments.h"
#include "core/engraving/Sketch.h"
#include "core/engraving/SystemPlan.h"

namespace earwright {

Smufl dynamicGlyph(Dynamic level);

/// Between a dynamic and a hairpin, and how long a hairpin at least is where there is room.
inline constexpr double besideDynamic = 0.5;
inline constexpr double leastHairpin = 1.8;
/// What the columns leave between two dynamics for one, over the gap that they have anyway.
inline constexpr double hairpinRoom = leastHairpin + besideDynamic;

/// Dynamics centred under their notes, hairpins from one to the next, all on one height, clear of what hangs
/// from the staff (Gould, "Behind Bars", from memory). `left` and `right` are the ends of hairpins that come
/// from the line before or go on in the next. After slurs.
void layOutDynamics(const SystemPlan& plan, const LineMoments& moments, double left, double right,
                    Sketch& sketch);

/// Free words under the line. After dynamics.
void layOutWordsBelow(const SystemPlan& plan, const LineMoments& moments, Sketch& sketch);

/// "let ring" with dashes to where the ringing notes end, closed by a hook; neighbours share one (common
/// practice). Under the staff, or over the tablature where `over` is set: then at its top line, y = 0.
void layOutLetRing(const LaidLine& line, double right, bool over, Sketch& sketch);

} // namespace earwright
