#include "core/listening/HeardSpans.h"

#include <utility>

namespace earwright {

std::shared_ptr<const HeardSpan> HeardSpans::find(std::size_t view, const Range<Seconds>& span) const {
    const std::lock_guard lock(guard);
    const auto found = spans.find({view, span.begin.value, span.end.value});
    return found == spans.end() ? nullptr : found->second;
}

void HeardSpans::keep(std::size_t view, const Range<Seconds>& span, std::shared_ptr<const HeardSpan> heard) {
    const std::lock_guard lock(guard);
    if (spans.size() >= mostSpans) spans.clear();
    spans.insert_or_assign({view, span.begin.value, span.end.value}, std::move(heard));
}

} // namespace earwright
