// Accidentals before the heads of one stem.
#pragma once

#include "core/engraving/FontMetrics.h"
#include "core/engraving/StaffBar.h"

#include <vector>

namespace earwright {

/// Left edges of the accidentals of these heads, the highest next to the heads and each lower one as far
/// right as it stays clear of those above (common practice for two notes). `from` is where they may reach to;
/// heads without one have 0. `scale` is the size of the heads. Threads: any.
std::vector<double> accidentalEdges(const std::vector<StaffHead>& heads, double from, double scale,
                                    const FontMetrics& font);

} // namespace earwright
