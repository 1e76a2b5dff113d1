#include "core/listening/Passages.h"

#include <algorithm>
#include <numeric>

namespace earwright {

std::vector<Passage> passagesOf(const std::vector<Range<Seconds>>& spans, Seconds duration) {
    constexpr Seconds longestGap{4};
    constexpr Seconds surroundings{1};
    std::vector<std::size_t> order(spans.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return spans[a].begin < spans[b].begin; });
    std::vector<Passage> passages;
    for (const std::size_t index : order) {
        const Range<Seconds>& span = spans[index];
        if (passages.empty() || span.begin - passages.back().range.end > longestGap)
            passages.push_back({span, {}});
        passages.back().range.end = std::max(passages.back().range.end, span.end);
        passages.back().members.push_back(index);
    }
    const auto inside = [&](Seconds time) {
        return std::clamp(time, Seconds(0), std::max(duration, Seconds(0)));
    };
    for (Passage& passage : passages)
        passage.range = {inside(passage.range.begin - surroundings),
                         inside(passage.range.end + surroundings)};
    return passages;
}

} // namespace earwright
