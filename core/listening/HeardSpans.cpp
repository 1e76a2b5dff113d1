#include "core/listening/HeardSpans.h"

namespace earwright {

std::optional<PitchRow> HeardSpans::find(std::size_t view, const Range<Seconds>& span) const {
    const std::lock_guard lock(guard);
    const auto found = rows.find({view, span.begin.value, span.end.value});
    if (found == rows.end()) return std::nullopt;
    return found->second;
}

void HeardSpans::keep(std::size_t view, const Range<Seconds>& span, const PitchRow& row) {
    const std::lock_guard lock(guard);
    if (rows.size() >= mostRows) rows.clear();
    rows.insert_or_assign({view, span.begin.value, span.end.value}, row);
}

} // namespace earwright
