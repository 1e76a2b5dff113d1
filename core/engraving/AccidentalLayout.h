// Accidentals before the heads of one stem.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/FontMetrics.h"
#include "core/engraving/StaffBar.h"

#include <vector>

namespace earwright {

/// The accidental of a head with its parentheses, about the left edge of the first; empty where it has none.
/// A head that is ghosted has parentheses of its own, and its reminder none. Threads: any.
PlacedShapes accidentalShapes(const StaffHead& head, const FontMetrics& font);

/// Left edges of the accidentals of these heads, the highest next to the heads and each lower one as far
/// right as it stays clear of those above (common practice for two notes). `from` is where they may reach to;
/// heads without one have 0. `scale` is the size of the heads. Threads: any.
std::vector<double> accidentalEdges(const std::vector<StaffHead>& heads, double from, double scale,
                                    const FontMetrics& font);

} // namespace earwright
