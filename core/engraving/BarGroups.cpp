#include "core/engraving/BarGroups.h"

#include "core/engraving/ValueReach.h"

#include <algorithm>
#include <iterator>
#include <numeric>
#include <utility>

namespace earwright {

namespace {

constexpr int fewestBeats = 5;
constexpr int mostBeats = 14;

using Groups = std::vector<std::int64_t>;

/// Quarters and longer beats, the usual groups first.
std::vector<Groups> groupsOfQuarters(int beats) {
    if (beats == 5) return {{3, 2}, {2, 3}};
    if (beats == 6) return {{3, 3}, {4, 2}, {2, 4}};
    if (beats == 7) return {{4, 3}, {3, 4}};
    return {};
}

void addTwosAndThrees(std::int64_t beats, Groups& begun, std::vector<Groups>& all) {
    if (beats == 0) return all.push_back(begun);
    for (const std::int64_t group : {3, 2}) {
        if (group > beats) continue;
        begun.push_back(group);
        addTwosAndThrees(beats - group, begun, all);
        begun.pop_back();
    }
}

/// In twos and a last three; then few threes, and early ones, as in 3 + 2 + 2 and 3 + 3 + 2.
std::vector<Groups> groupsOfEighths(int beats) {
    std::vector<Groups> all;
    Groups begun;
    addTwosAndThrees(beats, begun, all);
    std::rotate(all.begin(), std::prev(all.end()), all.end());
    std::stable_sort(std::next(all.begin()), all.end(),
                     [](const Groups& a, const Groups& b) { return a.size() > b.size(); });
    return all;
}

std::vector<Groups> usableGroups(const Meter& meter) {
    if (meter.goesInThrees() || meter.beatsPerBar < fewestBeats || meter.beatsPerBar > mostBeats) return {};
    return meter.beatUnit >= 8 ? groupsOfEighths(meter.beatsPerBar) : groupsOfQuarters(meter.beatsPerBar);
}

/// How many values the notes of a bar are written in.
std::int64_t valuesIn(const Meter& meter, const Groups& ends, const std::vector<BarStretch>& bar) {
    std::int64_t count = 0;
    for (const BarStretch& stretch : bar) {
        if (!stretch.event) continue;
        for (Beats at = stretch.begin; at < stretch.end; ++count) {
            const auto value = longestValue(meter, noteReach(meter, ends, at, stretch.end) - at);
            at = value ? at + value->length : stretch.end;
        }
    }
    return count;
}

} // namespace

std::vector<std::int64_t> barGroupEnds(const Meter& meter, const std::vector<BarStretch>& bar) {
    Groups best;
    std::int64_t fewest = 0;
    for (Groups ends : usableGroups(meter)) {
        std::partial_sum(ends.begin(), ends.end(), ends.begin());
        const std::int64_t values = valuesIn(meter, ends, bar);
        if (!best.empty() && values >= fewest) continue;
        best = std::move(ends);
        fewest = values;
    }
    return best;
}

} // namespace earwright
