// Written notes that belong together though nobody marked a phrase over them.
#pragma once

#include "core/study/Study.h"

#include <optional>

namespace earwright {

/// The stretch of the notes around a place that are in no phrase: from the counted beat that the first of
/// them begins in, to the end of the one that the last of them ends in. Between two of its notes there is
/// less than a bar of rest and no phrase; the place is in it, or less than a bar away. Nothing where nothing
/// like that is written.
///
/// Requires: study.beatMap.hasTempo(). Threads: any.
std::optional<Range<Beats>> writtenRunAt(const Study& study, const Beats& place);

} // namespace earwright
