// What both sides of a stereo picture have in common.
#pragma once

#include <span>
#include <vector>

namespace earwright {

/// The sound that is about equally loud on both sides: each bin of a short-time spectrum is kept as far as
/// left and right agree in level, 2|LR|/(|L|²+|R|²) (the panning similarity of Avendano 2003).
/// Requires: equal lengths. Result: as long as the input, the level of (left + right) / 2.
std::vector<float> centreOf(std::span<const float> left, std::span<const float> right);

} // namespace earwright
