// What a staff is before any note: lines, clef, meter and bar lines.
#pragma once

#include "core/engraving/SignatureLayout.h"
#include "core/engraving/Sketch.h"
#include "core/engraving/SystemPlan.h"

#include <vector>

namespace earwright {

inline constexpr double staffHeight = 4;

/// What a bar begins with: on a line's first bar its key, elsewhere what changes.
SignatureShapes signaturesAt(const SystemPlan& plan, std::size_t bar, const FontMetrics& font);

/// Draws clef and signatures from the left end of the staff on; returns where the first note may begin.
double drawStaffStart(const SystemPlan& plan, Sketch& sketch);
/// How far drawStaffStart() goes, without drawing.
double staffStartWidth(const SystemPlan& plan, const FontMetrics& font);

/// Five lines from 0 to `right`.
void drawStaffLines(double right, Sketch& sketch);
/// Bar lines whose right edges stand at these places, over a staff or system from `top` to `bottom`; the last
/// one is a final bar line where `isFinal`.
void drawBarLines(const std::vector<double>& places, double top, double bottom, bool isFinal, Sketch& sketch);

} // namespace earwright
