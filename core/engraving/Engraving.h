// From a study to engraved lines and pages.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/EngravingOptions.h"
#include "core/engraving/FontMetrics.h"
#include "core/result/Result.h"
#include "core/study/Study.h"

#include <vector>

namespace earwright {

/// The lines of music of one excerpt, each about its own origin, as wide as the page between its margins. The
/// last one reaches only as far as its notes need where it has fewer bars than the others.
///
/// Errors: OutOfRange of pageBars(), and where paper is narrower than its margins, a line has no bars or the
/// excerpt ends before it begins. Threads: any.
Result<std::vector<EngravedSystem>> engraveSystems(const Study& study, const PageExcerpt& excerpt,
                                                   const EngravingOptions& options, const FontMetrics& font);

/// The study's excerpts as pages, at least one. A line that is higher than a page gets one of its own.
/// Errors and threads as above.
Result<std::vector<EngravedPage>> engravePages(const Study& study, const EngravingOptions& options,
                                               const FontMetrics& font);

/// The whole study, from the pickup to its last note or chorus.
PageExcerpt wholeStudy(const Study& study);

} // namespace earwright
