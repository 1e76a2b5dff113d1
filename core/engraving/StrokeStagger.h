// How the falls or scoops of one stem's heads keep clear of one another.
#pragma once

#include "core/engraving/StaffBar.h"

#include <cstddef>
#include <vector>

namespace earwright {

/// How much further from the heads the fall or scoop of head `index` begins than a single one would: where it
/// would meet the one below it, it stands further out, and the two run side by side. `mark` tells which of
/// the two; 0 for a head without it. The heads rise. Threads: any.
double strokeStagger(const std::vector<StaffHead>& heads, std::size_t index, bool Phrasing::*mark);

} // namespace earwright
