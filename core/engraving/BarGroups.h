// How a bar that goes neither in halves nor in threes is divided.
#pragma once

#include "core/engraving/BarStretch.h"
#include "core/music/Meter.h"

#include <cstdint>
#include <vector>

namespace earwright {

/// Where the groups of beats end that a bar's values and beams show, in beats of its own meter from its
/// start; the last one is the bar's length. Empty where the meter says it all: up to four beats and where
/// eighths go in threes; and in more than seven quarters or fourteen eighths.
///
/// Five quarters are 3 + 2, six 3 + 3, seven 4 + 3; eighths go in twos, an odd one with the last two (common
/// practice). Where the notes of a bar fit other groups with fewer ties, it has those: 2 + 3, 3 + 4, 3 + 2 +
/// 2, 3 + 3 + 2. Requires: `bar` lies within one bar, in order.
std::vector<std::int64_t> barGroupEnds(const Meter& meter, const std::vector<BarStretch>& bar);

} // namespace earwright
