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
/// What the line behind this one changes, announced behind the last bar line (common practice).
SignatureShapes courtesyAfter(const SystemPlan& plan, const FontMetrics& font);
/// The room of that, with what is left free before it and behind; 0 where nothing is announced.
double courtesyWidth(const SystemPlan& plan, const FontMetrics& font);

/// Clef and signatures from the left end of the staff on, about its top line; of tablature alone the meter.
PlacedShapes staffStart(const SystemPlan& plan, const FontMetrics& font);
/// Where the meter stands that the line begins with. Requires: it does.
double meterPlace(const SystemPlan& plan, const FontMetrics& font);
/// Where the first note may begin, behind the sign of a repeat as well.
double staffStartWidth(const SystemPlan& plan, const FontMetrics& font);
/// Where the sign of a repeat that begins with the line stands, if one does.
std::optional<double> openingRepeatPlace(const SystemPlan& plan, const FontMetrics& font);

/// What courtesyAfter() says, behind a bar line at `barLine`.
PlacedShapes courtesyShapes(const SystemPlan& plan, double barLine, const FontMetrics& font);

/// Five lines from 0 to `right`.
void drawStaffLines(double right, Sketch& sketch);

} // namespace earwright
