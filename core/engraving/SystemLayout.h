// One line of music, laid out.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/FontMetrics.h"
#include "core/engraving/SystemPlan.h"

namespace earwright {

/// The line with everything in its place, from x = 0 to the plan's width (or less, with quarterSpaces).
/// Threads: any.
EngravedSystem layOutSystem(const SystemPlan& plan, const FontMetrics& font);

/// The width that the line needs to read well.
double comfortableWidth(const SystemPlan& plan, const FontMetrics& font);
/// The room a quarter gets when the line fills its width.
double quarterSpacesOf(const SystemPlan& plan, const FontMetrics& font);

} // namespace earwright
