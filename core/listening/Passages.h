// Places far apart in a recording, gathered into passages that are listened to one by one.
#pragma once

#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <cstddef>
#include <vector>

namespace earwright {

/// A stretch of the recording and what belongs to it.
struct Passage {
    Range<Seconds> range;
    /// Indices of the spans in it, by time.
    std::vector<std::size_t> members;
};

/// Gathers spans less than four seconds apart; each passage reaches one second beyond its first and last
/// span, but not outside the recording. Spans may come in any order.
std::vector<Passage> passagesOf(const std::vector<Range<Seconds>>& spans, Seconds duration);

} // namespace earwright
