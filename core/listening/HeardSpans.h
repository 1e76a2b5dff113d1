// What spans of a passage were found to say, kept so that asking again does not listen again.
#pragma once

#include "core/listening/PitchRow.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <cstddef>
#include <map>
#include <mutex>
#include <optional>
#include <tuple>

namespace earwright {

/// The rows of one passage's spans, by view. After a note was corrected all others of a check are asked for
/// again just as they were.
///
/// Threads: any. Memory: at most mostRows rows; then it starts afresh.
class HeardSpans {
public:
    /// 1.2 MB.
    static constexpr std::size_t mostRows = 4096;

    std::optional<PitchRow> find(std::size_t view, const Range<Seconds>& span) const;
    void keep(std::size_t view, const Range<Seconds>& span, const PitchRow& row);
    /// What it may take at most.
    static constexpr std::size_t mostBytes() { return mostRows * (sizeof(Key) + sizeof(PitchRow)); }

private:
    /// View, begin and end in seconds.
    using Key = std::tuple<std::size_t, double, double>;

    mutable std::mutex guard;
    /// Guarded.
    std::map<Key, PitchRow> rows;
};

} // namespace earwright
