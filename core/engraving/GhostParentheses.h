// The parentheses around ghosted heads.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/FontMetrics.h"
#include "core/engraving/StaffBar.h"

#include <vector>

namespace earwright {

/// Between a head and its parenthesis, in staff spaces.
inline constexpr double parenthesisGap = 0.08;

enum class ParenthesisSide { Left, Right };

/// Upright, its ends at `x` from `top` to `bottom`, its middle `width` further out. Threads: any.
PlacedCurve parenthesis(ParenthesisSide side, double x, double top, double bottom, double width, NoteId note);

/// Of the ghosted among these heads, which are given from the lowest on and reach from `left` to `right`;
/// those whose parentheses would meet have a pair in common (Gould, "Behind Bars", from memory). Threads:
/// any.
PlacedShapes ghostParentheses(const std::vector<StaffHead>& heads, double left, double right,
                              const FontMetrics& font);

} // namespace earwright
