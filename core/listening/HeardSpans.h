// What spans of a passage were found to say, kept so that asking again does not listen again.
#pragma once

#include "core/listening/PartialFeatures.h"
#include "core/listening/PitchRow.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <cstddef>
#include <map>
#include <memory>
#include <mutex>
#include <tuple>

namespace earwright {

/// What one view says about a span.
struct HeardSpan {
    /// How probable each pitch is, heard as any line.
    PitchRow row;
    /// What it was heard by; nothing in silence.
    SpanLevels levels;
};

/// One passage's spans, by view. After a note was corrected all others of a check are asked for again just as
/// they were.
///
/// Threads: any. Memory: at most mostSpans; then it starts afresh.
class HeardSpans {
public:
    /// 11 MB.
    static constexpr std::size_t mostSpans = 2048;

    /// Null where it was not heard, or has been forgotten.
    std::shared_ptr<const HeardSpan> find(std::size_t view, const Range<Seconds>& span) const;
    void keep(std::size_t view, const Range<Seconds>& span, std::shared_ptr<const HeardSpan> heard);
    /// What it may take at most.
    static constexpr std::size_t mostBytes() { return mostSpans * (sizeof(Key) + sizeof(HeardSpan)); }

private:
    /// View, begin and end in seconds.
    using Key = std::tuple<std::size_t, double, double>;

    mutable std::mutex guard;
    /// Guarded.
    std::map<Key, std::shared_ptr<const HeardSpan>> spans;
};

} // namespace earwright
