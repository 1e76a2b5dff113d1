// The short lines of heads above and below the staff.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/FontMetrics.h"
#include "core/engraving/StaffBar.h"

#include <vector>

namespace earwright {

/// Of the heads of one stem, which lie between `left` and `right`. Each line reaches beyond them as the font
/// says, and half the way to an accidental that stands in its way: the two never touch (common practice).
/// `accidentals`: the room of those before the heads. `scale` is the size of the heads. Threads: any.
std::vector<PlacedLine> ledgerLines(const std::vector<StaffHead>& heads, double left, double right,
                                    const std::vector<PageBox>& accidentals, double scale,
                                    const FontMetrics& font);

} // namespace earwright
