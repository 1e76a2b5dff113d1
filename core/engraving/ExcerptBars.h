// The bars of one excerpt as signs on a staff, ready to be broken into lines.
#pragma once

#include "core/engraving/EngravingOptions.h"
#include "core/engraving/StaffBar.h"
#include "core/result/Result.h"
#include "core/study/Study.h"

#include <vector>

namespace earwright {

struct ExcerptBars {
    std::vector<StaffBar> bars;
    /// By event of the line: it stands under one slur with the one before.
    std::vector<bool> slurred;
    /// The same of slurs that stay on a string (SlurString.h).
    std::vector<bool> slurredOnString;
    Clef clef = Clef::Treble;
};

/// Error: OutOfRange of pageBars(). Threads: any.
Result<ExcerptBars> excerptBars(const Study& study, const PageExcerpt& excerpt,
                                const EngravingOptions& options);

} // namespace earwright
