// Choosing how a beat is divided in the note grid.
#pragma once

#include "core/study/Study.h"

#include <cstdint>

namespace earwright {

/// The columns of one whole beat, counted from bar 1's first as 0. Notes already there stay where they are.
Study setDivision(const Study& study, std::int64_t beat, BeatDivision division);

} // namespace earwright
