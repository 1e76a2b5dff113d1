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
/// last one reaches only as far as its notes need where it is the only one or has fewer bars than the one
/// before. Where a number of bars is wanted and has no room on one line, it is broken into lines of nearly as
/// many, so that lines go on beginning where the form's do. An excerpt that is cut out of the line loses
/// empty bars at its ends, and at its beginning rests of half a bar or more.
///
/// Errors: OutOfRange of pageBars(), and where paper is narrower than its margins, a line has no bars or the
/// excerpt ends before it begins. Threads: any.
Result<std::vector<EngravedSystem>> engraveSystems(const Study& study, const PageExcerpt& excerpt,
                                                   const EngravingOptions& options, const FontMetrics& font);

/// The study's excerpts as pages, at least one. A line that is higher than a page gets one of its own.
/// Errors and threads as above.
Result<std::vector<EngravedPage>> engravePages(const Study& study, const EngravingOptions& options,
                                               const FontMetrics& font);

/// The bars a stretch of the music lies in, with all their notes.
PageExcerpt barsAround(const Study& study, const Range<Beats>& stretch);

/// The whole study, from the pickup to its last note or chorus.
PageExcerpt wholeStudy(const Study& study);

} // namespace earwright
