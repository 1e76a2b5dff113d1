// Which side of its stem each head stands on.
#pragma once

#include "core/engraving/StaffBar.h"

#include <vector>

namespace earwright {

/// How far each of the heads of one stem, which rise, stands right of its usual place: 0, or a multiple of
/// `by`, what the two sides of the stem are apart. The head where the stem begins keeps its usual place; of
/// heads a step apart the further one changes sides, and one that finds both sides taken stands beside them
/// (common practice). Threads: any.
std::vector<double> headOffsets(const std::vector<StaffHead>& heads, bool stemUp, double by);

} // namespace earwright
