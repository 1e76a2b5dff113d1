// The lines between bars: plain, double, final, and those of repeats.
#pragma once

#include "core/engraving/Sketch.h"
#include "core/engraving/SystemPlan.h"

namespace earwright {

enum class BarLineSign { Plain, Double, Final, RepeatEnd, RepeatStart, RepeatBoth };

/// The line behind a bar of the plan. A change of key stands behind a double one (common practice).
BarLineSign barLineBehind(const SystemPlan& plan, std::size_t bar);

/// How far a sign reaches to either side of its place: the right edge of the line that every sign has.
struct BarLineReach {
    double left = 0;
    double right = 0;
};
BarLineReach reachOf(BarLineSign sign, const FontMetrics& font);

/// Draws it over a staff from `top` to `bottom`, whose lines are `lineGap` apart.
void drawBarLine(BarLineSign sign, double place, double top, double bottom, double lineGap, Sketch& sketch);

} // namespace earwright
